import type { TextDocument } from 'vscode';
import type { Connector } from '../core/facts/connection.ts';
import type { CheckedText } from '../core/findings/checkedText.ts';
import { createBackgroundConnector, type Surroundings } from './backgroundConnector.ts';

/** Studies of open documents, made once a version however many features ask. */
export interface Studies {
  /** The study of a document's present text; `pending` while its paths are still being found. */
  readonly of: (document: TextDocument) => CheckedText;
  /**
   * Calls the listener when a document's paths have been found: its study is a new one then. The function
   * that comes back ends that.
   */
  readonly onFound: (listener: (document: TextDocument) => void) => () => void;
}

interface Known {
  readonly version: number;
  readonly study: CheckedText;
}

/** Remembers the last study of each open document; a document that is gone takes its study along. */
export function createStudies(
  check: (text: string, connector: Connector) => CheckedText,
  surroundings: Surroundings | undefined = {
    now: () => performance.now(),
    later: (work) => setTimeout(work, 0),
  },
): Studies {
  const known = new WeakMap<TextDocument, Known>();
  const connectors = new WeakMap<TextDocument, Connector>();
  const listeners = new Set<(document: TextDocument) => void>();

  const connectorOf = (document: TextDocument): Connector => {
    const own =
      connectors.get(document) ??
      createBackgroundConnector(surroundings, () => {
        known.delete(document);
        for (const listener of [...listeners]) listener(document);
      });
    connectors.set(document, own);
    return own;
  };
  return {
    of: (document) => {
      const last = known.get(document);
      if (last?.version === document.version) return last.study;
      const next = { version: document.version, study: check(document.getText(), connectorOf(document)) };
      known.set(document, next);
      return next.study;
    },
    onFound: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
