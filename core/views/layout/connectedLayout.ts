import type { ConnectionFacts, ConnectionState } from '../../facts/connection.ts';
import type { Facts } from '../../facts/facts.ts';
import { unjoinedReason } from '../../facts/unjoined.ts';
import { inEnglish } from '../../figures/speech.ts';
import type { Picture } from '../../picture/picture.ts';
import type { Bar, Winding } from '../../winding/model.ts';
import { pathName } from '../../winding/paths/writtenPaths.ts';
import { coilEnds } from './coilEnds.ts';
import type { DrawnEnd, DrawnLead, DrawnPathEnd, DrawnStarPoint, LayoutInput } from './input.ts';
import { drawLayout, titledLayout } from './layout.ts';

/** The developed layout of a winding; what was drawn for an earlier text stays where slot table and paths do. */
export function connectedLayout(
  facts: Facts,
  title: string,
  { emphasis, room, speech = inEnglish }: Pick<LayoutInput, 'emphasis' | 'room' | 'speech'> = {},
): Picture {
  const drawing = facts.drawn(JSON.stringify([emphasis, room, speech.name]), () =>
    drawLayout({ ...layoutInput(facts.winding, title, facts.connection), emphasis, room, speech }),
  );
  return titledLayout(drawing, { title, room, speech });
}

/** What the developed layout shows: joints, leads and star points where there are paths, else coil ends. */
export function layoutInput(winding: Winding, title: string, connection: ConnectionState): LayoutInput {
  if (connection.kind !== 'connected')
    return {
      winding,
      title,
      ends: coilEnds(winding),
      leads: [],
      starPoints: [],
      unjoined: unjoinedReason(connection, winding) ?? undefined,
    };
  const { facts } = connection;
  const { joints, ends } = facts.joints();
  const sources = facts.paths.map((path) =>
    facts.written ? `path ${pathName(path, winding.phases)}` : undefined,
  );
  const pathEnds = ends.map((end) => ({
    end,
    drawn: {
      side: end.side,
      bar: end.bar,
      number: end.number,
      phase: end.phase,
      path: facts.paths[end.path]!.number,
      source: sources[end.path],
    } satisfies DrawnPathEnd,
  }));
  const leads: DrawnLead[] = pathEnds
    .filter(({ end }) => end.kind === 'lead')
    .map(({ end, drawn }) => ({ ...drawn, terminal: end.terminal }));
  return {
    winding,
    title,
    ends: joints.map(
      (joint): DrawnEnd => ({
        side: joint.side,
        from: joint.from,
        to: joint.to,
        span: joint.span,
        kind: joint.kind,
        number: joint.number,
        separatePiece: joint.kind === 'jumper' || joint.separatePiece,
        phase: joint.phase,
        path: facts.paths[joint.path]!.number,
        source: sources[joint.path],
      }),
    ),
    leads,
    starPoints: starPoints(pathEnds.filter(({ end }) => end.kind === 'star')),
    ...barLookups(winding, facts, sources),
  };
}

function starPoints(
  ends: readonly { readonly end: { readonly terminal: string }; readonly drawn: DrawnPathEnd }[],
): readonly DrawnStarPoint[] {
  const byName = new Map<string, DrawnPathEnd[]>();
  for (const { end, drawn } of ends) byName.set(end.terminal, [...(byName.get(end.terminal) ?? []), drawn]);
  return [...byName].map(([name, drawn]) => ({ name, ends: drawn }));
}

function barLookups(
  { slots, layers }: Winding,
  facts: ConnectionFacts,
  pathSources: readonly (string | undefined)[],
): Pick<LayoutInput, 'barPath' | 'barSource'> {
  // By place as in the slot table's `cells`.
  const place = (bar: Bar) => bar.layer * slots + bar.slot - 1;
  const numbers = new Array<number | undefined>(slots * layers).fill(undefined);
  const sources = new Array<string | undefined>(slots * layers).fill(undefined);
  facts.paths.forEach((path, index) => {
    for (const bar of path.bars) {
      numbers[place(bar)] = path.number;
      sources[place(bar)] = pathSources[index];
    }
  });
  return { barPath: (bar) => numbers[place(bar)], barSource: (bar) => sources[place(bar)] };
}
