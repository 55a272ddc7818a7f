import type { Range } from '../finding.ts';
import type { Block, Document, Statement, Value } from '../text/document.ts';
import type { BlockName } from '../vocabulary/vocabulary.ts';
import type {
  AcceptedCode,
  Angle,
  BarSpecification,
  BrokenText,
  ConnectSpecification,
  DutySpecification,
  GapLengths,
  Given,
  InsulationSpecification,
  LayerRow,
  LayoutSpecification,
  MachineSpecification,
  PerLayers,
  PhaseConnection,
  RequiredLimit,
  RouteRequest,
  SheetSpecification,
  SlotSpecification,
  Specification,
  WishWord,
  WrittenPath,
} from './specification.ts';
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
    ...(machine ? { machine: readMachine(machine) } : {}),
    slots: slotBlocks(document.blocks).map(readSlot),
    ...(bar ? { bar: readBar(bar) } : {}),
    ...(insulation ? { insulation: readInsulation(insulation) } : {}),
    ...(layout ? { layout: readLayout(layout) } : {}),
    ...(connect ? { connect: readConnect(connect) } : {}),
    ...(duty ? { duty: readDuty(duty) } : {}),
    limits: (required?.statements ?? []).filter(({ entry }) => entry.role === 'quantity').map(readLimit),
    accepts: (required?.statements ?? []).filter(({ entry }) => entry.word === 'accept').map(readAccept),
    ...(vary ? { vary: readVary(vary, readLimit) } : {}),
    ...(sheet ? { sheet: readSheet(sheet) } : {}),
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

function given<T>(statement: Statement, value: T, range?: Range): Given<T> {
  const last = statement.values[statement.values.length - 1];
  const first = statement.values[0];
  const whole = first && last ? { start: first.range.start, end: last.range.end } : statement.range;
  return { value, range: range ?? whole, statement: statement.range };
}

type Quantity = Extract<Value, { kind: 'quantity' }>;

function quantities(statement: Statement): readonly Quantity[] {
  return statement.values.filter((value): value is Quantity => value.kind === 'quantity');
}

function textOf(statement: Statement): string {
  return statement.values
    .map((value) => (value.kind === 'text' || value.kind === 'mark' ? value.text : ''))
    .join('');
}

function keywordOf(statement: Statement): string {
  const value = statement.values.find((candidate) => candidate.kind === 'keyword');
  return value?.kind === 'keyword' ? value.text : '';
}

function hasKeyword(statement: Statement, word: string): boolean {
  return statement.values.some((value) => value.kind === 'keyword' && value.text === word);
}

function layersOf(statement: Statement): readonly number[] {
  return statement.values.flatMap((value) => (value.kind === 'layer' ? [value.layer] : []));
}

function angleOf(quantity: Quantity): Angle {
  return { amount: quantity.value, unit: quantity.unit as Angle['unit'] };
}

/** Finds the statement of a word in a block and reads it; `{}` where it is absent. */
function optional<K extends string, T>(
  block: Block,
  key: K,
  word: string,
  read: (statement: Statement) => T,
): { readonly [P in K]?: Given<T> } {
  const statement = block.statements.find((candidate) => candidate.entry.word === word);
  return (statement ? { [key]: given(statement, read(statement)) } : {}) as { readonly [P in K]?: Given<T> };
}

const amount = (statement: Statement): number => quantities(statement)[0]!.value;

function choice<T extends string>(statement: Statement): T {
  return keywordOf(statement) as T;
}

function gapLengths(statement: Statement): GapLengths {
  const lengths = quantities(statement);
  return { first: lengths[0]!.value, second: lengths[1]?.value ?? null };
}

function all<T>(block: Block, word: string, read: (statement: Statement) => T): readonly Given<T>[] {
  return block.statements
    .filter((statement) => statement.entry.word === word)
    .map((statement) => given(statement, read(statement)));
}

function readMachine(block: Block): MachineSpecification {
  return {
    range: block.word,
    ...optional(block, 'slots', 'slots', amount),
    ...optional(block, 'poles', 'poles', amount),
    ...optional(block, 'phases', 'phases', (statement) => {
      const [count, apart] = quantities(statement);
      return { count: count!.value, apart: apart ? angleOf(apart) : null };
    }),
    ...optional(block, 'gap', 'gap', (statement) => choice<'inner' | 'outer' | 'both'>(statement)),
    ...optional(block, 'bore', 'bore', amount),
    ...optional(block, 'outside', 'outside', amount),
    ...optional(block, 'stack', 'stack', amount),
    ...optional(block, 'stackFactor', 'stack-factor', amount),
    ...optional(block, 'yokeHeight', 'yoke-height', amount),
    ...optional(block, 'airGap', 'air-gap', gapLengths),
    ...optional(block, 'magnetHeight', 'magnet-height', gapLengths),
    ...optional(block, 'magnetPermeability', 'magnet-permeability', amount),
    ...optional(block, 'carter', 'carter', (statement) => keywordOf(statement) === 'on'),
    ...optional(block, 'speed', 'speed', amount),
    ...optional(block, 'frequency', 'frequency', amount),
    ...optional(block, 'flux', 'flux', amount),
    ...optional(block, 'current', 'current', amount),
    ...optional(block, 'currentAngle', 'current-angle', (statement) => angleOf(quantities(statement)[0]!)),
    ...optional(block, 'dInductance', 'd-inductance', amount),
    ...optional(block, 'qInductance', 'q-inductance', amount),
    ...optional(block, 'voltage', 'voltage', amount),
    ...optional(block, 'windingTemperature', 'winding-temperature', amount),
    ...optional(block, 'endTemperature', 'end-temperature', amount),
    ...optional(block, 'coreTemperature', 'core-temperature', amount),
    ...optional(block, 'coreHeat', 'core-heat', amount),
    ...optional(block, 'coreCooling', 'core-cooling', amount),
    ...optional(block, 'coolantTemperature', 'coolant-temperature', amount),
    ...optional(block, 'driveEnd', 'drive-end', (statement) => choice<'connection' | 'far'>(statement)),
    ...optional(block, 'rotorSkew', 'rotor-skew', (statement) => {
      const [angle, steps] = quantities(statement);
      return { angle: angleOf(angle!), steps: steps?.value ?? null };
    }),
    rotorField: all(block, 'rotor-field', (statement) => {
      const [harmonic, relative] = quantities(statement);
      return { harmonic: harmonic!.value, relative: relative!.value };
    }),
    currentHarmonics: all(block, 'current-harmonic', (statement) => {
      const [harmonic, relative] = quantities(statement);
      return { harmonic: harmonic!.value, relative: relative!.value };
    }),
    currentRipples: all(block, 'current-ripple', (statement) => {
      const [frequency, relative] = quantities(statement);
      return { frequency: frequency!.value, relative: relative!.value };
    }),
  };
}

function readSlot(block: Block): SlotSpecification {
  return {
    range: block.word,
    layers: block.layers,
    ...optional(block, 'width', 'width', amount),
    ...optional(block, 'depth', 'depth', amount),
    ...optional(block, 'opening', 'opening', amount),
    ...optional(block, 'openingHeight', 'opening-height', amount),
    ...optional(block, 'wedge', 'wedge', amount),
    ...optional(block, 'liner', 'liner', amount),
    separators: all(block, 'separator', (statement) => {
      const [first, second] = layersOf(statement);
      return { layers: [first!, second!], thickness: amount(statement) };
    }),
    ...optional(block, 'sideConductance', 'side-conductance', amount),
    ...optional(block, 'barField', 'bar-field', (statement) => {
      const [radial, tangential] = quantities(statement);
      return { radial: radial!.value, tangential: tangential?.value ?? 0 };
    }),
  };
}

function perLayers(statement: Statement): PerLayers<number> {
  const layers = layersOf(statement);
  return { layers: layers.length > 0 ? layers : null, value: amount(statement) };
}

function readBar(block: Block): BarSpecification {
  return {
    range: block.word,
    width: all(block, 'width', perLayers),
    height: all(block, 'height', perLayers),
    strands: all(block, 'strands', perLayers),
    ...optional(block, 'corner', 'corner', amount),
    ...optional(block, 'coating', 'coating', amount),
    ...optional(block, 'metal', 'metal', (statement) => choice<'copper' | 'aluminium'>(statement)),
    ...optional(block, 'form', 'form', (statement) => choice<'hairpin' | 'straight'>(statement)),
    ...optional(block, 'endConductance', 'end-conductance', amount),
    ...optional(block, 'endStraight', 'end-straight', amount),
    ...optional(block, 'endClearance', 'end-clearance', amount),
    ...optional(block, 'jointStraight', 'joint-straight', amount),
    ...bendRadii(block),
    ...optional(block, 'jointGap', 'joint-gap', amount),
    ...optional(block, 'jointPlane', 'joint-plane', (statement) => choice<'free' | 'level'>(statement)),
    ...optional(block, 'leadLength', 'lead-length', amount),
    ...optional(block, 'pieceWidth', 'piece-width', amount),
    ...optional(block, 'pieceHeight', 'piece-height', amount),
    ...optional(block, 'pieceClearance', 'piece-clearance', amount),
    ...optional(block, 'ringWidth', 'ring-width', amount),
    ...optional(block, 'ringHeight', 'ring-height', amount),
    ...optional(block, 'jointResistance', 'joint-resistance', amount),
    ...optional(block, 'bareEnd', 'bare-end', amount),
  };
}

/** Both radii stand in one statement; each has the place of its own number. */
function bendRadii(block: Block): Pick<BarSpecification, 'bendRadius' | 'flatRadius'> {
  const statement = block.statements.find(({ entry }) => entry.word === 'bend-radius');
  if (!statement) return {};
  const [edge, flat] = quantities(statement);
  return {
    bendRadius: given(statement, edge!.value, edge!.range),
    ...(flat ? { flatRadius: given(statement, flat.value, flat.range) } : {}),
  };
}

function readInsulation(block: Block): InsulationSpecification {
  return {
    range: block.word,
    ...optional(block, 'turnVoltage', 'turn-voltage', amount),
    ...optional(block, 'phaseVoltage', 'phase-voltage', amount),
    ...optional(block, 'surgeFactor', 'surge-factor', amount),
  };
}

function readLayout(block: Block): LayoutSpecification {
  return {
    range: block.word,
    ...optional(block, 'layers', 'layers', amount),
    ...optional(block, 'span', 'span', amount),
    ...optional(block, 'stagger', 'stagger', amount),
    ...optional(block, 'belt', 'belt', (statement) => angleOf(quantities(statement)[0]!)),
    rows: all(block, 'layer', readLayer),
    skew: all(block, 'skew', (statement) => ({
      layers: hasKeyword(statement, 'all') ? null : layersOf(statement),
      value: angleOf(quantities(statement)[0]!),
    })),
  };
}

function readLayer(statement: Statement): LayerRow {
  const [layer, from] = layersOf(statement) as [number, number | undefined];
  const row = statement.values.find((value) => value.kind === 'row');
  const amounts = quantities(statement);
  if (row?.kind === 'row') {
    return {
      kind: 'row',
      layer,
      places: row.places,
      repeat: amounts[0]?.value ?? 1,
      alternating: hasKeyword(statement, 'alternating'),
      rowRange: { start: row.range.start, end: statement.range.end },
    };
  }
  const fromValue = statement.values.filter((value) => value.kind === 'layer')[1]!;
  return {
    kind: 'derived',
    layer,
    from: from!,
    fromRange: fromValue.range,
    moved: amounts[0]?.value ?? 0,
    negated: hasKeyword(statement, 'negated'),
  };
}

function readConnect(block: Block): ConnectSpecification {
  const connections = block.statements.flatMap((statement): Given<PhaseConnection>[] => {
    switch (statement.entry.word) {
      case 'star':
        return [given(statement, hasKeyword(statement, 'joined') ? 'star-joined' : 'star', statement.range)];
      case 'delta':
      case 'open':
        return [given(statement, statement.entry.word, statement.range)];
      default:
        return [];
    }
  });
  return {
    range: block.word,
    connections,
    ...optional(block, 'route', 'route', readRoute),
    ...optional(block, 'specials', 'specials', (statement) =>
      choice<'joined' | 'crowns' | 'either'>(statement),
    ),
    ...optional(block, 'rings', 'rings', (statement) => choice<'star' | 'terminals' | 'all'>(statement)),
    paths: all(block, 'path', readPath),
    copies: all(block, 'repeat', (statement) => {
      const [phase, as] = statement.values.filter((value) => value.kind === 'mark');
      const shift = quantities(statement)[0]!;
      return {
        phase: given(statement, phase!.text, phase!.range),
        as: given(statement, as!.text, as!.range),
        shift: given(statement, shift.value, shift.range),
      };
    }),
  };
}

function readRoute(statement: Statement): RouteRequest {
  const [paths, deviation] = quantities(statement);
  const wishes = statement.values.flatMap((value, index) => {
    const before = statement.values[index - 1];
    const opens = before?.kind === 'keyword' && (before.text === 'fewest' || before.text === 'least');
    return opens && value.kind === 'keyword' ? [value.text as WishWord] : [];
  });
  return { paths: paths!.value, wishes, deviation: deviation?.value ?? null };
}

function readPath(statement: Statement): WrittenPath {
  const [phase, from, to] = statement.values.filter((value) => value.kind === 'mark');
  const number = quantities(statement)[0]!;
  const walk = statement.values.find((value) => value.kind === 'walk');
  const farAt = statement.values.flatMap((value) =>
    value.kind === 'keyword' && value.text === 'far' ? [value.range.start] : [],
  );
  if (walk?.kind !== 'walk') throw new RangeError('a path statement without its walk');
  return {
    phase: given(statement, phase!.text, phase!.range),
    number: given(statement, number.value, number.range),
    from: given(statement, from!.text, from!.range),
    fromFar: farAt.some((start) => start < walk.range.start),
    to: given(statement, to!.text, to!.range),
    toFar: farAt.some((start) => start > walk.range.start),
    steps: walk.steps,
    walkRange: walk.range,
  };
}

function readDuty(block: Block): DutySpecification {
  return {
    range: block.word,
    points: all(block, 'point', (statement) => {
      const named = (placeholder: string) =>
        quantities(statement).find((value) => value.placeholder === placeholder);
      const angle = named('angle');
      return {
        name: textOf(statement),
        speed: named('speed')?.value ?? null,
        frequency: named('frequency')?.value ?? null,
        torque: named('torque')?.value ?? null,
        current: named('current')?.value ?? null,
        angle: angle ? angleOf(angle) : null,
        duration: named('duration')!.value,
      };
    }),
  };
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

function readSheet(block: Block): SheetSpecification {
  return {
    range: block.word,
    ...optional(block, 'owner', 'owner', textOf),
    ...optional(block, 'number', 'number', textOf),
    ...optional(block, 'title', 'title', textOf),
    ...optional(block, 'revision', 'revision', textOf),
    ...optional(block, 'date', 'date', textOf),
    ...optional(block, 'drawnBy', 'drawn-by', textOf),
    ...optional(block, 'approvedBy', 'approved-by', textOf),
    ...optional(block, 'documentType', 'document-type', textOf),
    ...optional(block, 'status', 'status', textOf),
    ...optional(block, 'sheetSize', 'sheet-size', textOf),
    ...optional(block, 'language', 'language', textOf),
    notes: all(block, 'note', textOf),
  };
}
