// What the extension loads when it is first needed: the entry of a bundle of its own.

export { compareCommitted, compareShown, compareWindings } from './comparison/commands.ts';
export { createComparisonPanel } from './comparison/host.ts';
export { completionsAt } from './completions.ts';
export { exportDrawing } from './exporting/drawing.ts';
export { exportPackage, exportSchedules } from './exporting/folder.ts';
export { openExample } from './gallery.ts';
export { hoverAt } from './hovers.ts';
export { importTable } from './importTable.ts';
export { hintsOf, pathAt } from './language/hints.ts';
export { lensesOf, resolvedLens } from './language/lenses.ts';
export { meetingActions, meetLimit } from './language/meetLimit.ts';
export { definitionsAt, highlightsAt, referencesAt } from './language/navigation.ts';
export { onTypeEdits } from './language/onType.ts';
export { remedyActions } from './language/remedies.ts';
export { renamedRange, renameEdit } from './language/rename.ts';
export { rewriteActions } from './language/rewrites.ts';
export { selectionRanges } from './language/selectionRanges.ts';
export { semanticTokens } from './language/semanticTokens.ts';
export { pathSignature } from './language/signature.ts';
export { newWinding } from './newWinding/newWinding.ts';
export { createLayoutPanels } from './panel/host.ts';
export { openReference, referencePage } from './reference.ts';
export { varyWinding } from './variants/vary.ts';
