import { filledIn } from '../../core/figures/filledIn.ts';
import type { Speech } from '../../core/figures/speech.ts';
import type { Finding } from '../../core/language/finding.ts';
import type { Language } from '../wording.ts';
import { figures } from './engine/figures.ts';
import { models, phrase } from './engine/phrases.ts';
import { refusals } from './engine/refusals.ts';
import { sentences } from './engine/sentences.ts';
import { explanations } from './explanations.ts';
import { connection } from './findings/connection.ts';
import { copper } from './findings/copper.ts';
import { acceptance, limits, operation, registry, rules, sheet } from './findings/rest.ts';
import { space } from './findings/space.ts';
import { oddCharacters, text, vary } from './findings/text.ts';
import { layout, paths } from './findings/winding.ts';
import { meaning } from './meanings.ts';
import { beside, correction, expectation } from './phrases.ts';
import type { Wording } from './wordings.ts';
import { words } from './words.ts';

/** Every kind of finding in German, by the module that declares it. */
export const findingWords = {
  text,
  oddCharacters,
  vary,
  layout,
  paths,
  connection,
  copper,
  space,
  operation,
  limits,
  acceptance,
  rules,
  sheet,
  registry,
};

const byCode: ReadonlyMap<string, (data: unknown) => string> = new Map(
  Object.values(findingWords).flatMap((kinds) =>
    (Object.values(kinds) as readonly Wording<never>[]).map(
      ([code, worded]) => [code, worded as (data: unknown) => string] as const,
    ),
  ),
);

// Lists of bars come as they were cut.
const shortened = (words: string) => words.replaceAll(/ and (\d+) more\b/g, ' und $1 weitere');

/** What pictures, key figures and tables are labeled in. */
const speech: Speech = {
  name: 'de',
  say: (english, ...values) => filledIn(sentences[english] ?? english, values),
  figure: (path) => figures[path],
  model: (path, english) => models[path] ?? english,
  phrase,
  refusal: (code, english) => refusals[code] ?? english,
};

/** The extension's words in German; command line, reports and codes are English. */
export const german: Language = {
  words,
  finding: ({ code, data, message }: Finding) => shortened(byCode.get(code)?.(data) ?? message),
  explanation: (code) => explanations[code],
  meaning,
  expected: expectation,
  related: beside,
  fix: correction,
  speech,
};
