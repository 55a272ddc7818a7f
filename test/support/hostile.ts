/** Texts that would act on a page, a forge, a terminal or a build server, were they taken for more than text. */
export const hostileTexts: readonly string[] = [
  '<script>alert(1)</script>',
  '<img src=x onerror=alert(1)>',
  '</details> </summary> <details open>',
  '&lt;b&gt; &amp; &#60;b&#62; &1',
  '[a](javascript:alert(1)) ![b](http://x.example/y.png) [c]: /d [^1]',
  'https://x.example/ www.x.example mail@x.example ftp://x.example pier.example',
  '@office @workshop/winders cc:@office',
  '#12 GH-12 gh-12 !1 TIDE-3 estuary/ferry#12 ferry!7 office@deadbeef estuary/ferry@1234567890abcdef',
  'deadbee 0123456789abcdef0123456789abcdef01234567',
  '~bug ~"in work" %v2 %"next tide" $12 ^alert &34 [vulnerability:5] *iteration:"x"',
  ':smile: :+1: $x^2$ $`y`$ ==z==',
  '/close now',
  '::error file=a::b',
  '  ::remove-matcher owner=slotwright::',
  'x ##[add-mask]y ##vso[task.setvariable variable=a]b ##teamcity[buildStop] ##[group]',
  '# one | two | three',
  '*bold* _thin_ ~~gone~~ `code` **x** {+ in +} {- out -}',
  '| a | b |',
  'a \\| b \\\\| c | d',
  '`` ` ``` a` `b',
  '<!-- hidden -->',
  '1. first - second + third',
  '- first',
  '===',
  '\u202eright to left\u202c \u200f \u061c \u200e \u00ad \ufeff',
  '\u0000\u0007\u001b[31mred\u001b[0m section_start:1:x\r\u001b[0K',
  'line\u2028separator\u2029s\u0085',
  '\ud800 alone',
  '😀'.repeat(100),
  'x'.repeat(5_000),
  '`'.repeat(5_000),
  '@a'.repeat(2_500),
];

/** A text of the winding language that means these words. */
export function inQuotes(words: string): string {
  return `"${words.replace(/[\\"]/g, (c) => `\\${c}`)}"`;
}

/** Lines of a log that a build server would take for a command (actions/runner, src/Runner.Common/ActionCommand.cs: blanks, `::`; or `##[` anywhere). */
export function buildCommands(output: string): readonly string[] {
  return output
    .split(/\r\n|\r|\n/)
    .filter((line) => /^[\s\p{Cf}\0]*::/u.test(line) || /##[a-z]*\[/i.test(line));
}
