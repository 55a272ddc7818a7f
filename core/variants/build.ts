import { itemText } from '../language/specification/series.ts';
import type { Specification } from '../language/specification/specification.ts';
import { saidIn } from '../language/specification/specify.ts';
import type { Block, Document, Statement } from '../language/text/document.ts';
import type { BlockName } from '../language/vocabulary/vocabulary.ts';
import { keepingAtMost } from './keeping.ts';
import { blockOf, type Place, type Setting, type StatementMaker, statementMaker } from './places.ts';

/** What a text says with values set at some places. */
export type Builder = (settings: readonly Setting[]) => Specification;

/** What blocks say is kept for so many sets of values; those of further ones are read anew. */
const mostKept = 256;

/**
 * Reads what a text says with values set, block by block: those that nothing is set in as they are, the
 * others once for each set of values.
 */
export function builder(document: Document, base: Specification): Builder {
  const keep = keepingAtMost<string, Partial<Specification>>(mostKept);
  const make = statementMaker();
  const keyOf = keyMaker();
  const saidWith = (name: BlockName, settings: readonly Setting[]): Partial<Specification> =>
    keep(keyOf(name, settings), () => saidIn(name, blocksWith(document, name, settings, make)));
  return (settings) => {
    const specification: Specification = { ...base };
    for (const [name, set] of byBlock(settings)) Object.assign(specification, saidWith(name, set));
    return specification;
  };
}

function byBlock(settings: readonly Setting[]): ReadonlyMap<BlockName, readonly Setting[]> {
  const blocks = new Map<BlockName, Setting[]>();
  for (const setting of settings) {
    const name = blockOf(setting.place);
    const held = blocks.get(name);
    if (held) held.push(setting);
    else blocks.set(name, [setting]);
  }
  return blocks;
}

/** Tells sets of values of a block apart, as one text. */
function keyMaker(): (name: BlockName, settings: readonly Setting[]) => string {
  const places = new Map<Place, number>();
  return (name, settings) => {
    let key: string = name;
    for (const { place, item } of settings) {
      if (!places.has(place)) places.set(place, places.size);
      key += ` ${places.get(place)} ${itemText(item)}`;
    }
    return key;
  };
}

/** The blocks of a name with values set in them. */
function blocksWith(
  document: Document,
  name: BlockName,
  settings: readonly Setting[],
  make: StatementMaker,
): readonly Block[] {
  const replaced = new Map<Statement, Statement | null>();
  const added = new Map<Block | null, Statement[]>();
  for (const setting of settings) {
    const { place } = setting;
    const statement = make(setting);
    if (place.kind === 'value') replaced.set(place.statement, statement);
    else if (statement) added.set(place.block, [...(added.get(place.block) ?? []), statement]);
  }
  const blocks = document.blocks
    .filter((block) => block.name === name)
    .map((block) => withStatements(block, replaced, added.get(block) ?? []));
  const further = added.get(null);
  return further ? [...blocks, newBlock(name, further)] : blocks;
}

/** A block with other statements in place of some, or without them (null), and more behind. */
function withStatements(
  block: Block,
  replaced: ReadonlyMap<Statement, Statement | null>,
  added: readonly Statement[],
): Block {
  const statements: Statement[] = [];
  for (const own of block.statements) {
    const statement = replaced.has(own) ? replaced.get(own)! : own;
    if (statement) statements.push(statement);
  }
  statements.push(...added);
  const { name, word, layers, broken, range } = block;
  return { name, word, layers, statements, broken, range };
}

/** A block that the text lacks. */
function newBlock(name: BlockName, statements: readonly Statement[]): Block {
  const { word, range } = statements[0]!;
  return { name, word, layers: [], statements, broken: [], range };
}
