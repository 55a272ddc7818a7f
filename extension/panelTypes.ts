/** The panels' types, named in package.json as well so that a reloaded window wakes the extension. */
export const layoutPanelType = 'slotwright.layout';
export const comparisonPanelType = 'slotwright.comparison';
