import { type FigurePath, figureRegister } from '../figures/register.ts';
import { inEnglish, type Speech } from '../figures/speech.ts';
import { capitalized, shownFigure } from './numbers.ts';

/** The value of a figure, SI, with the digits and the unit of the register: `12.4 mΩ`; null is a dash. */
export function figureText(path: FigurePath, value: number | null): string {
  return shownFigure(value, figureRegister[path].shown);
}

/** The name of a figure as headings and labels have it: `Base speed`. */
export function figureLabel(path: FigurePath, speech: Speech = inEnglish): string {
  return capitalized(speech.figure(path));
}

/** Name and value as a sentence: `Base speed: 860 rpm.` */
export function figureSentence(path: FigurePath, value: number, speech: Speech = inEnglish): string {
  return `${figureLabel(path, speech)}: ${figureText(path, value)}.`;
}

/** The value of a figure in its shown unit, as axes and columns have it. */
export function inShownUnit(path: FigurePath, value: number): number {
  return value / figureRegister[path].shown.factor;
}

/** Words with the shown unit of a figure, as axes and columns have it: `torque in Nm`. */
export function withShownUnit(words: string, path: FigurePath, between = ' in '): string {
  const { unit } = figureRegister[path].shown;
  return unit === '' ? words : `${words}${between}${unit}`;
}
