import { findingKind } from '../language/finding.ts';
import { layerLetter } from '../winding/model.ts';

export const separatorMisplaced = findingKind<{
  layers: readonly [number, number];
  reason: 'not-neighbors' | 'other-slot' | 'repeated';
}>({
  code: 'separator-misplaced',
  severity: 'error',
  help: 'A separator lies between two neighboring layers of its slot, one between each two.',
  message: ({ layers, reason }) => {
    const names = `${layerLetter(layers[0])} and ${layerLetter(layers[1])}`;
    switch (reason) {
      case 'not-neighbors':
        return `Layers ${names} do not lie next to each other: a separator stands between two neighboring layers, as b and c.`;
      case 'other-slot':
        return `Layers ${names} do not both lie in this slot.`;
      case 'repeated':
        return `Layers ${names} have a separator already.`;
    }
  },
});

/** Every kind about bars in space. */
export const spaceKinds = [separatorMisplaced];
