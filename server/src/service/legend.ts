/** Types and modifiers of the protocol, in the order in which answers count them. */
export const LEGEND = {
  tokenTypes: ['variable', 'parameter', 'type', 'enumMember', 'number', 'function', 'macro', 'class'],
  tokenModifiers: ['declaration'],
};
