/** Most slots and layers that the language holds. */
export const mostSlots = 2400;
export const mostLayers = 26;
