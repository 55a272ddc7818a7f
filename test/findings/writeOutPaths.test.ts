import { describe, expect, it } from 'vitest';
import { format } from '../../core/language/format/formatter.ts';
import { study } from '../support/study.ts';

const head = `winding "Ferry stator"

machine { slots 48  poles 8  phases 3 }

layout { layers 4  span 6 }

`;

const connectBlocks: Readonly<Record<string, string>> = {
  'a block of lines': 'connect {\n  # joined in star\n  star\n  route paths 2  # found\n}\n',
  'a block on one line': 'connect { star  route paths 2 }\n',
  'the default route': 'connect {\n  star\n}\n',
  'the default route on one line': 'connect { delta }\n',
  'fewest joints': 'connect {\n  open\n  route paths 4 fewest joints\n}\n',
};

describe('writing out the found paths', () => {
  it.each(Object.entries(connectBlocks))('replaces the route in %s', (_, block) => {
    const text = head + block;
    const before = study(text);
    const edit = before.writeOutPaths()!;
    const after = text.slice(0, edit.range.start) + edit.text + text.slice(edit.range.end);
    expect(format(after)).toBe(after);
    expect(after).not.toContain('route');
    for (const comment of block.match(/#[^\n]*/g) ?? []) expect(after).toContain(comment);
    const studied = study(after);
    expect(studied.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(studied.report().paths).toEqual(before.report().paths);
    expect(studied.report().joints).toEqual(before.report().joints);
    expect(studied.writeOutPaths()).toBeNull();
  });

  it('offers nothing where no paths are found', () => {
    expect(study(head).writeOutPaths()).toBeNull();
    expect(study(`${head}connect {\n  star\n  route paths 5\n}\n`).writeOutPaths()).toBeNull();
  });
});
