/**
 * The notation in which a word's values are written in the vocabulary: placeholders (`length`,
 * `count`, `layer` ...), literal words in quotes, `( )` for grouping, `|` between choices, and the
 * suffixes `?` (may be missing), `*` (any number) and `+` (one or more).
 */
export type Pattern =
  | { readonly kind: 'empty' }
  | { readonly kind: 'placeholder'; readonly name: string }
  | { readonly kind: 'literal'; readonly text: string }
  | { readonly kind: 'series'; readonly parts: readonly Pattern[] }
  | { readonly kind: 'choice'; readonly parts: readonly Pattern[] }
  | { readonly kind: 'many'; readonly part: Pattern; readonly least: 0 | 1; readonly most: 1 | null };

const cache = new Map<string, Pattern>();

/** Reads a pattern; throws RangeError where the vocabulary holds a malformed one. */
export function parsePattern(source: string): Pattern {
  const known = cache.get(source);
  if (known) return known;
  const tokens = source.match(/'[^']*'|[a-z-]+|[()|?*+]/g) ?? [];
  let at = 0;

  const choice = (): Pattern => {
    const parts = [series()];
    while (tokens[at] === '|') {
      at++;
      parts.push(series());
    }
    return parts.length === 1 ? parts[0]! : { kind: 'choice', parts };
  };
  const series = (): Pattern => {
    const parts: Pattern[] = [];
    while (at < tokens.length && tokens[at] !== ')' && tokens[at] !== '|') parts.push(suffixed());
    if (parts.length === 0) return { kind: 'empty' };
    return parts.length === 1 ? parts[0]! : { kind: 'series', parts };
  };
  const suffixed = (): Pattern => {
    const part = single();
    const suffix = tokens[at];
    if (suffix !== '?' && suffix !== '*' && suffix !== '+') return part;
    at++;
    return { kind: 'many', part, least: suffix === '+' ? 1 : 0, most: suffix === '?' ? 1 : null };
  };
  const single = (): Pattern => {
    const token = tokens[at++];
    if (token === '(') {
      const inner = choice();
      if (tokens[at++] !== ')') throw new RangeError(`pattern '${source}': ')' expected`);
      return inner;
    }
    if (token === undefined || '|?*+)'.includes(token))
      throw new RangeError(`pattern '${source}': value expected`);
    return token.startsWith("'")
      ? { kind: 'literal', text: token.slice(1, -1) }
      : { kind: 'placeholder', name: token };
  };

  const pattern = choice();
  if (at !== tokens.length) throw new RangeError(`pattern '${source}': '${tokens[at]}' unexpected`);
  cache.set(source, pattern);
  return pattern;
}

/** Every literal word a pattern holds. */
export function patternLiterals(pattern: Pattern): readonly string[] {
  switch (pattern.kind) {
    case 'literal':
      return [pattern.text];
    case 'series':
    case 'choice':
      return pattern.parts.flatMap(patternLiterals);
    case 'many':
      return patternLiterals(pattern.part);
    default:
      return [];
  }
}
