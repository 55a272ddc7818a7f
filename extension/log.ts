import { type Disposable, type LogOutputChannel, window } from 'vscode';
import type { CheckedText } from '../core/findings/checkedText.ts';
import type { Studies } from './engine/studies.ts';
import type { Parts } from './loadOnDemand.ts';
import { fileName } from './windingDocument.ts';
import { l10n } from './wording.ts';

/** What the extension tells of its own work, in the editor's output. */
export interface Log extends Disposable {
  readonly info: (words: string) => void;
  readonly error: (words: string) => void;
}

/** The channel of the extension among the editor's outputs; it is made when there is first something to tell. */
export function createLog(): Log {
  let channel: LogOutputChannel | null = null;
  const opened = () => {
    channel ??= window.createOutputChannel('Slotwright', { log: true });
    return channel;
  };
  return {
    info: (words) => opened().info(words),
    error: (words) => opened().error(words),
    dispose: () => channel?.dispose(),
  };
}

/** The same parts; one that cannot be loaded is told. */
export function toldParts(parts: Parts, log: Log): Parts {
  const told =
    <Part>(name: string, load: () => Promise<Part>) =>
    () =>
      load().catch((problem: unknown) => {
        log.error(l10n.t('{0} could not be loaded: {1}', name, String(problem)));
        throw problem;
      });
  return {
    engine: () => {
      const engine = parts.engine();
      return engine instanceof Promise ? told('engine.js', () => engine)() : engine;
    },
    onDemand: told('onDemand.js', parts.onDemand),
    tableReader: told('tableReader.js', parts.tableReader),
    fileFormats: told('fileFormats.js', parts.fileFormats),
    font: told('DejaVuSansCondensed.ttf', parts.font),
  };
}

/** The same studies; a check that failed in one is told once for each text. */
export function toldStudies(studies: Studies, log: Log): Studies {
  const told = new WeakSet<CheckedText>();
  return {
    ...studies,
    of: (document) => {
      const study = studies.of(document);
      const failed = study.findings.filter(({ code }) => code === 'check-crashed');
      if (failed.length > 0 && !told.has(study)) {
        told.add(study);
        for (const { message } of failed) log.error(`${fileName(document)}: ${message}`);
      }
      return study;
    },
  };
}
