export const patternRewritings = () => [];
