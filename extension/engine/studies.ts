import type { TextDocument } from 'vscode';
import type { Connector } from '../../core/facts/connection.ts';
import type { Measurer } from '../../core/figures/work.ts';
import type { CheckedText } from '../../core/findings/checkedText.ts';
import { type BackgroundConnector, createBackgroundConnector } from './backgroundConnector.ts';
import { createBackgroundMeasurer } from './backgroundMeasurer.ts';
import type { Surroundings } from './surroundings.ts';

/** Studies of open documents, made once a version however many features ask. */
export interface Studies {
  /** Takes the connection that is offered in place of the one that was found before. */
  readonly take: (document: TextDocument) => void;
  /** The study of a document's present text; `pending` while its paths are still being found, `measuring` while its clearances are measured. */
  readonly of: (document: TextDocument) => CheckedText;
  /**
   * Calls the listener when a document's paths have been found or its clearances measured: its study is a new one
   * then. The function that comes back ends that.
   */
  readonly onFound: (listener: (document: TextDocument) => void) => () => void;
}

interface Known {
  readonly version: number;
  readonly study: CheckedText;
}

/** What works on a document between keystrokes. */
interface Workers {
  readonly connector: BackgroundConnector;
  readonly measurer: Measurer;
}

/** Remembers the last study of each open document; a document that is gone takes its study along. */
export function createStudies(
  check: (text: string, connector: Connector, measurer: Measurer) => CheckedText,
  surroundings: Surroundings,
): Studies {
  const known = new WeakMap<TextDocument, Known>();
  const workers = new WeakMap<TextDocument, Workers>();
  const listeners = new Set<(document: TextDocument) => void>();

  const workersOf = (document: TextDocument): Workers => {
    const found = () => {
      known.delete(document);
      for (const listener of [...listeners]) listener(document);
    };
    const own = workers.get(document) ?? {
      connector: createBackgroundConnector(surroundings, found),
      measurer: createBackgroundMeasurer(surroundings, found),
    };
    workers.set(document, own);
    return own;
  };
  return {
    of: (document) => {
      const last = known.get(document);
      if (last?.version === document.version) return last.study;
      const { connector, measurer } = workersOf(document);
      const next = {
        version: document.version,
        study: check(document.getText(), connector.connect, measurer),
      };
      known.set(document, next);
      return next.study;
    },
    take: (document) => workers.get(document)?.connector.take(),
    onFound: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
