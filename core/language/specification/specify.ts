import type { Range } from '../finding.ts';
import type { Block, Document, Statement } from '../text/document.ts';
import { barStatements, insulationStatements, slotStatements } from '../vocabulary/blocks/copper.ts';
import { dutyStatements } from '../vocabulary/blocks/duty.ts';
import { sheetStatements } from '../vocabulary/blocks/file.ts';
import { machineStatements } from '../vocabulary/blocks/machine.ts';
import { connectStatements, layoutStatements } from '../vocabulary/blocks/winding.ts';
import { type BlockName, blockNames } from '../vocabulary/vocabulary.ts';
import { given, hasKeyword, quantities, readBlock, textOf } from './reading.ts';
import type {
  AcceptedCode,
  BarSpecification,
  BrokenText,
  ConnectSpecification,
  RequiredLimit,
  SlotSpecification,
  Specification,
} from './specification.ts';
import type { Given } from './statements.ts';
import { readVary } from './vary.ts';

/** Reads a document's statements into typed values; the first block of a name counts. */
export function specify({ text, title, blocks, broken }: Document): Specification {
  const said: Partial<Writable<Specification>> = {};
  if (title) said.title = given(title, textOf(title));
  for (const name of blockNames) Object.assign(said, saidIn(name, blocks));
  const unread = broken.map((range) => brokenText(text, 'file', range));
  for (const block of blocks)
    for (const range of block.broken) unread.push(brokenText(text, block.name, range));
  said.broken = unread;
  return said as Specification;
}

type Writable<T> = { -readonly [K in keyof T]: T[K] };

/** What the blocks of a name say: the first one counts, of slot blocks all where each names its layers. */
export function saidIn(name: BlockName, blocks: readonly Block[]): Partial<Specification> {
  if (name === 'slot') return { slots: slotBlocks(blocks).map(readSlot) };
  const block = blocks.find((candidate) => candidate.name === name);
  if (name === 'require') return readRequired(block?.statements ?? []);
  if (!block) return {};
  switch (name) {
    case 'machine':
      return { machine: readBlock(block, machineStatements) };
    case 'bar':
      return { bar: readBar(block) };
    case 'insulation':
      return { insulation: readBlock(block, insulationStatements) };
    case 'layout':
      return { layout: readBlock(block, layoutStatements) };
    case 'connect':
      return { connect: readConnect(block) };
    case 'duty':
      return { duty: readBlock(block, dutyStatements) };
    case 'vary':
      return { vary: readVary(block, readLimit) };
    case 'sheet':
      return { sheet: readBlock(block, sheetStatements) };
    default:
      return {};
  }
}

function readSlot(block: Block): SlotSpecification {
  return { ...readBlock(block, slotStatements), layers: block.layers };
}

function readRequired(statements: readonly Statement[]): Pick<Specification, 'limits' | 'accepts'> {
  return {
    limits: statements.filter(({ entry }) => entry.role === 'quantity').map(readLimit),
    accepts: statements.filter(({ entry }) => entry.word === 'accept').map(readAccept),
  };
}

function brokenText(text: string, block: BlockName, range: Range): BrokenText {
  const word = /^[^\s{}]*/.exec(text.slice(range.start, Math.min(range.end, range.start + 80)))![0];
  return { block, word, range };
}

/** The first slot block, and the others where each names its layers. */
function slotBlocks(blocks: readonly Block[]): readonly Block[] {
  const slots = blocks.filter((candidate) => candidate.name === 'slot');
  return slots.every((candidate) => candidate.layers.length > 0) ? slots : slots.slice(0, 1);
}

function readBar(block: Block): BarSpecification {
  const said = readBlock(block, barStatements);
  const statement = block.statements.find(({ entry }) => entry === barStatements.bendRadius);
  const flat = statement && quantities(statement)[1];
  return flat ? { ...said, flatRadius: given(statement, flat.value, flat.range) } : said;
}

function readConnect(block: Block): ConnectSpecification {
  const said = readBlock(block, connectStatements);
  const connections = [said.star, said.delta, said.open].filter((connection) => connection !== undefined);
  return { ...said, connections: connections.sort((a, b) => a.range.start - b.range.start) };
}

function readLimit(statement: Statement): Given<RequiredLimit> {
  const amounts = quantities(statement);
  const limit = amounts[amounts.length - 1]!;
  const scope = statement.values.find(
    (value) => value.kind === 'keyword' && (value.text === 'harmonic' || value.text === 'order'),
  );
  return given(statement, {
    entry: statement.entry,
    scope:
      scope?.kind === 'keyword'
        ? { kind: scope.text as 'harmonic' | 'order', number: amounts[0]!.value }
        : null,
    point: hasKeyword(statement, 'at') ? textOf(statement) : null,
    relation: hasKeyword(statement, '<=') ? '<=' : '>=',
    limit: limit.value,
    written: limit.written,
    limitRange: limit.range,
  });
}

function readAccept(statement: Statement): Given<AcceptedCode> {
  const code = statement.values.find((value) => value.kind === 'code');
  if (code?.kind !== 'code') throw new RangeError('an accept statement without its code');
  return given(statement, { code: code.text, reason: textOf(statement) }, code.range);
}
