import type { Range } from '../finding.ts';
import type { Block, Document, Statement } from '../text/document.ts';
import { barStatements, insulationStatements, slotStatements } from '../vocabulary/blocks/copper.ts';
import { dutyStatements } from '../vocabulary/blocks/duty.ts';
import { sheetStatements } from '../vocabulary/blocks/file.ts';
import { machineStatements } from '../vocabulary/blocks/machine.ts';
import { connectStatements, layoutStatements } from '../vocabulary/blocks/winding.ts';
import type { BlockName } from '../vocabulary/vocabulary.ts';
import { given, hasKeyword, quantities, readBlock, textOf } from './reading.ts';
import type {
  AcceptedCode,
  BarSpecification,
  BrokenText,
  ConnectSpecification,
  RequiredLimit,
  Specification,
} from './specification.ts';
import type { Given } from './statements.ts';
import { readVary } from './vary.ts';

/** Reads a document's statements into typed values; the first block of a name counts. */
export function specify(document: Document): Specification {
  const block = (name: BlockName) => document.blocks.find((candidate) => candidate.name === name);
  const machine = block('machine');
  const bar = block('bar');
  const insulation = block('insulation');
  const layout = block('layout');
  const connect = block('connect');
  const duty = block('duty');
  const required = block('require');
  const vary = block('vary');
  const sheet = block('sheet');
  return {
    ...(document.title ? { title: given(document.title, textOf(document.title)) } : {}),
    ...(machine ? { machine: readBlock(machine, machineStatements) } : {}),
    slots: slotBlocks(document.blocks).map((slot) => ({
      ...readBlock(slot, slotStatements),
      layers: slot.layers,
    })),
    ...(bar ? { bar: readBar(bar) } : {}),
    ...(insulation ? { insulation: readBlock(insulation, insulationStatements) } : {}),
    ...(layout ? { layout: readBlock(layout, layoutStatements) } : {}),
    ...(connect ? { connect: readConnect(connect) } : {}),
    ...(duty ? { duty: readBlock(duty, dutyStatements) } : {}),
    limits: (required?.statements ?? []).filter(({ entry }) => entry.role === 'quantity').map(readLimit),
    accepts: (required?.statements ?? []).filter(({ entry }) => entry.word === 'accept').map(readAccept),
    ...(vary ? { vary: readVary(vary, readLimit) } : {}),
    ...(sheet ? { sheet: readBlock(sheet, sheetStatements) } : {}),
    broken: [
      ...document.broken.map((range) => brokenText(document, 'file', range)),
      ...document.blocks.flatMap(({ name, broken }) =>
        broken.map((range) => brokenText(document, name, range)),
      ),
    ],
  };
}

function brokenText(document: Document, block: BlockName, range: Range): BrokenText {
  const word = /^[^\s{}]*/.exec(document.text.slice(range.start, Math.min(range.end, range.start + 80)))![0];
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
