import { SemanticTokensLegend } from 'vscode';

/** How many phases have a color of their own; further ones begin anew. The letters tell them apart all the same. */
export const coloredPhases = 6;

/** Phases by their place, and bars that are passed back to the connection side; as contributed in package.json. */
export const tokenLegend = new SemanticTokensLegend(
  Array.from({ length: coloredPhases }, (_, index) => `windingPhase${index + 1}`),
  ['back'],
);
