import { shopModel } from '../../../core/facts/shop.ts';
import type { BarState } from '../../../core/space/cad/barLines.ts';
import { stepFileSteps } from '../../../core/space/cad/writeStep.ts';
import { largeStl, stlSize, stlSteps } from '../../../core/space/cad/writeStl.ts';
import { l10n } from '../../wording.ts';
import { inSlices } from '../inSlices.ts';
import type { Drawable, Making } from './drawingFiles.ts';

export const solidFormats = ['step', 'stl'] as const;
export type SolidFormat = (typeof solidFormats)[number];

/** The bars of a study as a STEP file; null where the text does not give their bends. */
export async function stepBytes(
  { facts, title }: Drawable,
  state: BarState,
  { pause }: Making,
): Promise<Uint8Array | null> {
  const model = shopModel(facts, title, { shape: null, state });
  if (!model.known) return null;
  return new TextEncoder().encode(await inSlices(stepFileSteps(model.value), pause));
}

/** The bars as they stand, in a format for CAD programs. Throws an error with what is missing where they cannot be made. */
export async function solidFile(study: Drawable, format: SolidFormat, making: Making): Promise<Uint8Array> {
  const model = shopModel(study.facts, study.title, { shape: null, state: 'finished' });
  if (!model.known) throw new Error(l10n.t('the bars need {0}.', model.needs.join(', ')));
  if (format === 'step') return (await stepBytes(study, 'finished', making))!;
  const bars = model.value.products.reduce((sum, { places }) => sum + places.length, 0);
  const size = stlSize(model.value);
  if (size > largeStl)
    await making.confirm(
      l10n.t('Triangles of {0} bars are many; their file takes about {1} MB.', bars, Math.round(size / 1e6)),
    );
  return inSlices(stlSteps(model.value), making.pause);
}
