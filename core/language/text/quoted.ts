import { visible } from './visible.ts';

/** Text as shown in a message: cut to a readable length, control characters made visible. */
export function quoted(text: string): string {
  const cut = text.length > 40 ? `${text.slice(0, 37).replace(/[\ud800-\udbff]$/, '')}...` : text;
  return `'${visible(cut)}'`;
}
