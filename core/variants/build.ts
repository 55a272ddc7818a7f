import type { Specification } from '../language/specification/specification.ts';
import { specify } from '../language/specification/specify.ts';
import type { Block, Document, Statement } from '../language/text/document.ts';
import { parse } from '../language/text/parser.ts';
import type { BlockName } from '../language/vocabulary/vocabulary.ts';
import { type Place, type Setting, statementText } from './places.ts';

/** What a text says with values set at some places. */
export type Builder = (settings: readonly Setting[]) => Specification;

/** Blocks kept as read; more of them are read anew. */
const mostKept = 4000;

/**
 * Reads what a text says with values set, block by block: those that nothing is set in as they are, the
 * others once for each set of values.
 */
export function builder(document: Document, base: Specification): Builder {
  const kept = new Map<string, Partial<Specification>>();
  const statements = new Map<string, Block>();
  const read = (name: BlockName, text: string): Block => {
    const key = `${name} ${text}`;
    const known = statements.get(key);
    if (known) return known;
    if (statements.size >= mostKept) statements.clear();
    const block = parse(`${name} {\n${text}\n}`).blocks[0]!;
    statements.set(key, block);
    return block;
  };
  const places = new Map<Place, number>();
  const idOf = (place: Place): number => {
    const known = places.get(place);
    if (known !== undefined) return known;
    places.set(place, places.size);
    return places.size - 1;
  };
  return (settings) => {
    const byBlock = new Map<BlockName, Setting[]>();
    for (const setting of settings) {
      const name = blockOf(setting.place);
      const held = byBlock.get(name);
      if (held) held.push(setting);
      else byBlock.set(name, [setting]);
    }
    let specification = base;
    for (const [name, set] of byBlock) {
      let key: string = name;
      for (const { place, text } of set) key += ` ${idOf(place)} ${text}`;
      let part = kept.get(key);
      if (!part) {
        if (kept.size >= mostKept) kept.clear();
        part = readBlock(document, name, set, read);
        kept.set(key, part);
      }
      specification = { ...specification, ...part };
    }
    return specification;
  };
}

function blockOf(place: Place): BlockName {
  return place.kind === 'new' ? place.name : place.statement.entry.block;
}

/** What the blocks of a name say with values set in them. */
function readBlock(
  document: Document,
  name: BlockName,
  settings: readonly Setting[],
  read: (name: BlockName, text: string) => Block,
): Partial<Specification> {
  const replaced = new Map<Statement, Statement>();
  const added = new Map<Block, Statement[]>();
  const made: Block[] = [];
  for (const setting of settings) {
    const parsed = read(name, statementText(document, setting));
    const statement = parsed.statements[0];
    if (!statement) continue;
    const { place } = setting;
    if (place.kind === 'value') replaced.set(place.statement, statement);
    else if (place.block) added.set(place.block, [...(added.get(place.block) ?? []), statement]);
    else made[0] = { ...parsed, statements: [...(made[0]?.statements ?? []), statement] };
  }
  const blocks = document.blocks
    .filter((block) => block.name === name)
    .map((block) => ({
      ...block,
      statements: [
        ...block.statements.map((statement) => replaced.get(statement) ?? statement),
        ...(added.get(block) ?? []),
      ],
    }));
  const said = specify({ ...document, title: null, blocks: [...blocks, ...made], broken: [] });
  switch (name) {
    case 'machine':
      return said.machine ? { machine: said.machine } : {};
    case 'slot':
      return { slots: said.slots };
    case 'bar':
      return said.bar ? { bar: said.bar } : {};
    case 'insulation':
      return said.insulation ? { insulation: said.insulation } : {};
    case 'layout':
      return said.layout ? { layout: said.layout } : {};
    case 'connect':
      return said.connect ? { connect: said.connect } : {};
    default:
      return {};
  }
}
