import { type FigurePath, figureRow } from '../../figures/register.ts';
import { inEnglish, type Speech } from '../../figures/speech.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import { visible } from '../../language/text/visible.ts';

/** What a figure of the report is called; of a figure of one layer with the layer: `AC ratio, layer a`. */
export function figureName(path: string, speech: Speech = inEnglish): string {
  const [, plain, place, point] = /^(.*?)(?:\[(\d+)\]|( at ".*"))?$/s.exec(path)!;
  const { say, figure } = speech;
  const name = figureRow(plain!) ? figure(plain as FigurePath) : unnamed(plain!);
  const told = point === undefined ? name : name.replace(say(' of a point of the duty'), () => point);
  return place === undefined ? told : say('{0}, layer {1}', told, layerLetter(Number(place) - 1));
}

/** Behind the name of a figure, the point of the duty that it is told at. */
export function atPoint(name: string): string {
  return ` at "${visible(name)}"`;
}

/** The place in the report of a figure, whatever its layer or the point of the duty that it is told at. */
export function figurePlace(path: string): string {
  return path.replace(/\[\d+\]$| at ".*"$/s, '');
}

/** The words of the place itself, for figures that the register does not name. */
function unnamed(path: string): string {
  return path.replaceAll('.', ' ').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
