import { createInterface } from 'node:readline/promises';

/** Where a question can be put and answered. */
export interface Terminal {
  readonly input: NodeJS.ReadableStream & { readonly isTTY?: boolean };
  readonly output: NodeJS.WritableStream & { readonly isTTY?: boolean };
}

/**
 * Puts a question that is answered by y or yes; anything else, and an end of the input, is no. Null where nobody
 * can be asked: the input or the output is no terminal.
 */
export async function confirmed(
  question: string,
  { input, output }: Terminal = { input: process.stdin, output: process.stderr },
): Promise<boolean | null> {
  if (input.isTTY !== true || output.isTTY !== true) return null;
  const lines = createInterface({ input, output });
  try {
    return await new Promise<boolean>((resolve) => {
      lines.on('close', () => resolve(false));
      // Ctrl-C while asked is a no.
      lines.on('SIGINT', () => lines.close());
      lines.question(`${question} [y/N] `).then(
        (answer) => resolve(/^y(es)?$/i.test(answer.trim())),
        () => resolve(false),
      );
    });
  } finally {
    lines.close();
  }
}
