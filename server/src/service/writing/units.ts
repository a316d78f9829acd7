export const unitRewritings = () => [];
