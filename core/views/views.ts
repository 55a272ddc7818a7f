import { joinedFacts } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { orNull } from '../figures/figure.ts';
import type { Speech } from '../figures/speech.ts';
import { finished, type Steps } from '../figures/steps.ts';
import { issueWords } from '../language/specification/issueWords.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { Picture } from '../picture/picture.ts';
import { copperPicture } from './copper/copper.ts';
import { fieldPicture } from './field/field.ts';
import { connectedLayout, layoutInput } from './layout/connectedLayout.ts';
import type { Standout } from './layout/input.ts';
import { operationPicture } from './operation/operation.ts';
import { phasorsPicture } from './phasors/phasors.ts';
import type { Room } from './room.ts';
import { sectionPicture } from './section/section.ts';
import { spaceSteps } from './space/space.ts';

/** The views of one winding that are a single picture. */
export const viewNames = ['layout', 'section', 'phasors', 'field', 'copper', 'operation', 'space'] as const;
export type ViewName = (typeof viewNames)[number];

/** What a view is drawn of. */
export interface ViewSubject {
  readonly title: string;
  readonly specification: Specification;
  readonly facts: Facts;
}

export interface ViewOptions {
  /** What stands out: in the layout all of it, in the section no side, in the phasors phase and path. */
  readonly emphasis?: Standout | undefined;
  /** Electrical degrees of the instant that the field view shows. */
  readonly instant?: number | undefined;
  /** Words for a file that holds what is to scale in full size, as CAD files do. */
  readonly fullSize?: boolean | undefined;
  /** A picture that takes long is made roughly, because another will follow soon. */
  readonly coarse?: boolean | undefined;
  /** The section of all slots instead of one repetition. */
  readonly wholeCircle?: boolean | undefined;
  /** Lays the view out for a live panel; by default for paper. */
  readonly room?: Room | undefined;
  /** What its words are in; default English. */
  readonly speech?: Speech | undefined;
}

/** Draws one view. */
export function drawView(subject: ViewSubject, view: ViewName, options: ViewOptions = {}): Picture {
  return finished(viewSteps(subject, view, options));
}

/** The same in steps. */
export function* viewSteps(subject: ViewSubject, view: ViewName, options: ViewOptions = {}): Steps<Picture> {
  const { specification, facts } = subject;
  const { emphasis, room, speech } = options;
  // A file is read away from its text; a panel stands beside it.
  const issue = room === undefined ? issueWords(specification) : null;
  const title = issue === null ? subject.title : `${subject.title}, ${issue}`;
  if (view === 'layout') return connectedLayout(facts, title, { emphasis, room, speech });
  const input = layoutInput(facts.winding, title, facts.connection);
  switch (view) {
    case 'section':
      return sectionPicture({
        ...input,
        specification,
        emphasis,
        room,
        speech,
        fullSize: options.fullSize,
        extent: options.wholeCircle ? 'circle' : 'repetition',
      });
    case 'phasors': {
      const paths = joinedFacts(facts)?.paths ?? null;
      return phasorsPicture({ ...input, emphasis: chainsOf(emphasis), paths, room, speech });
    }
    case 'field':
      return fieldPicture({ title, facts, instant: options.instant, room, speech });
    case 'copper':
      return copperPicture({
        title,
        winding: facts.winding,
        result: facts.copper(),
        curves: facts.copperCurves(),
        frequency: orNull(facts.emf().frequency),
        room,
        speech,
      });
    case 'operation':
      return operationPicture({ title, facts, room, speech });
    case 'space':
      return yield* spaceSteps({ ...input, facts, emphasis, coarse: options.coarse, room, speech });
  }
}

/** What stands out among chains of phasors, which have no layer and no side. */
function chainsOf({ phase, path }: Standout = {}): Standout | undefined {
  return phase === undefined && path === undefined ? undefined : { phase, path };
}
