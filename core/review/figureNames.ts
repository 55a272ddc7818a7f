import { figureRow } from '../figures/register.ts';
import { layerLetter } from '../winding/model.ts';

/** What a figure of the report is called; of a figure of one layer with the layer: `AC ratio, layer a`. */
export function figureName(path: string): string {
  const [, plain, place] = /^(.*?)(?:\[(\d+)\])?$/.exec(path)!;
  const layer = place === undefined ? '' : `, layer ${layerLetter(Number(place) - 1)}`;
  return (figureRow(plain!)?.words ?? unnamed(plain!)) + layer;
}

/** The words of the place itself, for figures that the register does not name. */
function unnamed(path: string): string {
  return path.replaceAll('.', ' ').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
