import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { layerLetter } from '../../../core/language/layerLetters.ts';
import { layoutInput } from '../../../core/views/layout/connectedLayout.ts';
import type { Standout } from '../../../core/views/layout/input.ts';
import { solidsOf } from '../../../core/views/space/solids.ts';
import { spaceWords } from '../../../core/views/space/space.ts';
import { drawView } from '../../../core/views/views.ts';
import type { Winding } from '../../../core/winding/model.ts';
import type { ViewContent } from '../../protocol/viewContent.ts';
import type { Wish } from '../../protocol/wish.ts';
import { engineSpeech } from '../engineSpeech.ts';
import { tableOf } from '../tables.ts';

/** Draws what is wished for of a study that has a winding; what is not there does not stand out. */
export function drawShown(study: CheckedText, wish: Wish): ViewContent | null {
  const { facts, title, specification } = study;
  const speech = engineSpeech();
  // Variants are no view of one winding.
  if (!facts || wish.view === 'variants') return null;
  if (wish.view === 'tables') return { kind: 'table', table: tableOf(study, facts, wish.table) };
  if (wish.view === 'space' && wish.live) {
    const { barPath } = layoutInput(facts.winding, title, facts.connection);
    const [solids, words] = [
      solidsOf(facts, barPath),
      spaceWords({ title, winding: facts.winding, facts, speech }),
    ];
    if (solids !== null && words !== null) return { kind: 'solids', solids, ...words };
  }
  const picture = drawView({ title, specification, facts }, wish.view, {
    instant: wish.instant,
    wholeCircle: wish.wholeCircle,
    room: wish.room,
    coarse: true,
    speech,
    emphasis: standoutOf(facts.winding, wish),
  });
  return { kind: 'picture', picture };
}

function standoutOf({ phases, layers, parallelPaths }: Winding, wish: Wish): Standout | undefined {
  const phase = wish.phase === null ? -1 : phases.names.indexOf(wish.phase);
  const layer =
    wish.layer === null
      ? -1
      : Array.from({ length: layers }, (_, index) => layerLetter(index)).indexOf(wish.layer);
  const standout = {
    ...(phase < 0 ? {} : { phase }),
    ...(wish.path === null || wish.path > parallelPaths ? {} : { path: wish.path }),
    ...(layer < 0 ? {} : { layer }),
    ...(wish.side === null ? {} : { side: wish.side }),
  };
  return Object.keys(standout).length === 0 ? undefined : standout;
}
