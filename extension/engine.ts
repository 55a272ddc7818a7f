import type { Connector } from '../core/findings/connection.ts';
import type { Study } from '../core/study.ts';

/** What the extension asks of the engine. */
export interface Engine {
  readonly study: (text: string, connector: Connector) => Study;
  readonly format: (text: string) => string;
}
