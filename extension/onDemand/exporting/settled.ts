import { CancellationError, type CancellationToken, type TextDocument } from 'vscode';
import { type Study, studyOf } from '../../../core/study.ts';
import type { Studies } from '../../engine/studies.ts';

/** The study of a document once its paths have been found and its clearances measured; throws CancellationError where its reader gave up waiting. */
export async function settledStudy(
  studies: Studies,
  document: TextDocument,
  token: CancellationToken,
): Promise<Study> {
  for (let study = studies.of(document); ; study = studies.of(document)) {
    if (token.isCancellationRequested) throw new CancellationError();
    if (!study.pending && !study.measuring) return studyOf(study);
    await nextFinding(studies, document, token);
  }
}

/** Waits until paths of the document were found, clearances measured or the reader gave up. */
function nextFinding(studies: Studies, document: TextDocument, token: CancellationToken): Promise<void> {
  return new Promise((resolve) => {
    const done = () => {
      end();
      canceled.dispose();
      resolve();
    };
    const end = studies.onFound((found) => {
      if (found === document) done();
    });
    const canceled = token.onCancellationRequested(done);
  });
}
