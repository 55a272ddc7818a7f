import { filledIn } from './filledIn.ts';
import { type FigurePath, figureRegister } from './register.ts';

/** What pictures and lists of figures are labeled in. The engine speaks English; a surface may pass another language. */
export interface Speech {
  /** Its language, by its two letters: what is kept of one language is not for another. */
  readonly name: string;
  /**
   * A sentence or name by its English wording, written out where it is said; `{0}`, `{1}` ... stand for what is put in.
   */
  readonly say: (english: string, ...values: readonly (string | number)[]) => string;
  /** What a figure is called, as in the register: `winding factor`. */
  readonly figure: (path: FigurePath) => string;
  /** The model of a figure in a line, as in the register. */
  readonly model: (path: FigurePath, english: string) => string;
  /** A few words that the engine puts together: what would supply a figure, why nothing does, which part of a bar. */
  readonly phrase: (english: string) => string;
  /** Why a variant makes no winding, by the code of its finding or the kind of its refusal. */
  readonly refusal: (code: string, english: string) => string;
}

/** As the engine has it. */
export const inEnglish: Speech = {
  name: 'en',
  say: (english, ...values) => filledIn(english, values),
  figure: (path) => figureRegister[path].words,
  model: (_, english) => english,
  phrase: (english) => english,
  refusal: (_, english) => english,
};
