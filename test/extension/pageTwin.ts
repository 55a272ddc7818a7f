import type { Picture } from '../../core/picture/picture.ts';
import { type PageMessage, readHostMessage } from '../../extension/protocol/messages.ts';
import type { PanelState } from '../../extension/protocol/panelState.ts';
import type { PanelUpdate } from '../../extension/protocol/panelUpdate.ts';
import { createReplica } from '../../extension/protocol/replica.ts';
import type { ShownSolids } from '../../extension/protocol/solidsChange.ts';
import type { ShownTable } from '../../extension/protocol/viewContent.ts';
import type { Wish } from '../../extension/protocol/wish.ts';
import type { StubPanel } from './vscodeStub.ts';
import { fromWire } from './wire.ts';

/** A panel's page in memory: it follows the updates and answers them, as the real one does. */
export interface PageTwin {
  /** What the page shows; throws while it shows nothing. */
  readonly state: () => PanelState;
  readonly picture: () => Picture;
  readonly solids: () => ShownSolids;
  readonly table: () => ShownTable;
  /** Updates that came, and the bytes of all that came. */
  readonly updates: readonly PanelUpdate[];
  readonly bytes: () => number;
  /** Names of what the pointer was on. */
  readonly names: readonly string[];
  /** While held, updates are followed but not answered; letting go answers the last one. */
  readonly hold: (held: boolean) => void;
  /** Whether the page was told that its panel keeps to its text. */
  readonly pinned: () => boolean;
  readonly say: (message: PageMessage) => void;
  /** The page loses what it has with the next update, and says so. */
  readonly lose: () => void;
  /** The page is destroyed; another one may be loaded. */
  readonly unload: () => void;
}

/** Loads a page into the panel. */
export function loadPage(panel: StubPanel, wish: Wish | null = null): PageTwin {
  const replica = createReplica();
  const updates: PanelUpdate[] = [];
  const names: string[] = [];
  let bytes = 0;
  let held = false;
  let pinned = false;
  let open: number | null = null;
  let losing = false;

  const answer = () => {
    const version = open;
    open = null;
    if (version !== null) panel.say({ kind: 'shown', version, followed: true });
  };
  const posted = panel.posted.event((json) => {
    bytes += Buffer.byteLength(json);
    const message = readHostMessage(fromWire(json));
    if (message === null) throw new Error(`The page refuses ${json.slice(0, 200)}`);
    if (message.kind === 'name') names.push(message.words);
    else if (message.kind === 'pinned') pinned = message.pinned;
    else {
      if (open !== null) throw new Error(`Two updates under way: ${open}, ${message.version}`);
      if (losing) {
        losing = false;
        replica.forget();
        panel.say({ kind: 'shown', version: message.version, followed: false });
        return;
      }
      if (!replica.take(message)) throw new Error(`Update ${message.version} does not follow`);
      updates.push(message);
      open = message.version;
      if (!held) answer();
    }
  });
  const state = () => {
    const present = replica.state();
    if (present === null) throw new Error('The page shows nothing yet');
    return present;
  };
  panel.say({ kind: 'ready', wish });
  return {
    state,
    picture: () => {
      const { view } = state();
      if (view?.kind !== 'picture') throw new Error('No picture is shown');
      return view.picture;
    },
    solids: () => {
      const { view } = state();
      if (view?.kind !== 'solids') throw new Error('No solids are shown');
      return view;
    },
    table: () => {
      const { view } = state();
      if (view?.kind !== 'table') throw new Error('No table is shown');
      return view.table;
    },
    updates,
    bytes: () => bytes,
    names,
    hold: (next) => {
      held = next;
      if (!held) answer();
    },
    pinned: () => pinned,
    say: (message) => panel.say(message),
    lose: () => {
      losing = true;
    },
    unload: () => posted.dispose(),
  };
}
