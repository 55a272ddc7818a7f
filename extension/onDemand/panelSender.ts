import { type Study, studyOf } from '../../core/study.ts';
import type { Parts } from '../loadOnDemand.ts';
import type { HostMessage, PanelContent } from '../messages.ts';
import { allAlike, type Wish } from '../wish.ts';
import { contentOf, type Shown } from './panelContent.ts';
import { noticeWords } from './panelWords.ts';

/** What there is to send, and where to. */
export interface Outbox {
  readonly shown: Shown | null;
  readonly wish: Wish;
  readonly post: (message: HostMessage) => void;
}

/** Sends what is to be shown; a later call overtakes an earlier one whose view is still being drawn. */
export interface Sender {
  readonly send: () => Promise<void>;
}

/** The layout is drawn at once, with every keystroke; the other views by the part that is loaded on demand. */
export function createSender(parts: Parts, outbox: () => Outbox): Sender {
  let turn = 0;

  const post = (source: string, study: Study, wish: Wish, drawn: Pick<PanelContent, 'picture' | 'table'>) => {
    const { shown, post: out } = outbox();
    out(contentOf(source, study, wish, drawn));
    if (shown?.notice) out(shown.notice);
  };
  return {
    send: async () => {
      const mine = ++turn;
      const { shown, wish, post: out } = outbox();
      if (shown === null) return;
      const { source, notice } = shown;
      if (shown.study === null) {
        if (notice !== null) out(notice);
        return;
      }
      const study = studyOf(shown.study);
      if (wish.view === 'layout' && allAlike(wish)) {
        post(source, study, wish, { picture: study.layoutPicture(), table: null });
        return;
      }
      try {
        const { drawShown } = await parts.onDemand();
        const drawn = mine === turn ? drawShown(study, wish) : null;
        if (drawn !== null) post(source, study, wish, drawn);
      } catch (error) {
        const reason = error instanceof Error ? error.message : String(error);
        if (mine === turn) out({ kind: 'notice', source, ...noticeWords().undrawable(reason), places: [] });
      }
    },
  };
}
