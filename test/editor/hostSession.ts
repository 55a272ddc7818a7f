import type { Page } from 'playwright-core';

/** Questions to the worker that runs extensions, by the browser's debugging protocol. */
export interface HostSession {
  readonly ask: <Result>(method: string, parameters?: object) => Promise<Result>;
}

type Answer = { readonly id?: number; readonly result?: Record<string, unknown> };

/** Attaches to the worker that runs extensions in a window whose extensions run in the browser. */
export async function attachToHost(page: Page): Promise<HostSession> {
  const session = await page.context().newCDPSession(page);
  const attached = new Promise<string>((resolve) => {
    session.on('Target.attachedToTarget', ({ sessionId, targetInfo }) => {
      if (targetInfo.title === 'WorkerExtensionHost') resolve(sessionId);
    });
  });
  await session.send('Target.setAutoAttach', {
    autoAttach: true,
    waitForDebuggerOnStart: false,
    flatten: false,
  });
  const sessionId = await attached;
  const waiting = new Map<number, (answer: Record<string, unknown>) => void>();
  session.on('Target.receivedMessageFromTarget', (event) => {
    const { id, result } = JSON.parse(event.message) as Answer;
    if (event.sessionId === sessionId && id !== undefined) waiting.get(id)?.(result ?? {});
  });
  let last = 0;
  return {
    ask: <Result>(method: string, parameters: object = {}): Promise<Result> => {
      const id = ++last;
      const message = JSON.stringify({ id, method, params: parameters });
      return new Promise((resolve, reject) => {
        waiting.set(id, (answer) => resolve(answer as Result));
        session.send('Target.sendMessageToTarget', { message, sessionId }).catch(reject);
      });
    },
  };
}
