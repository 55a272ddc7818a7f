import type { Connector } from '../core/facts/connection.ts';
import type { Measurer } from '../core/figures/work.ts';
import type { CheckedText } from '../core/findings/checkedText.ts';
import type { Surroundings } from './engine/backgroundConnector.ts';

/** What the extension asks of the engine. */
export interface Engine {
  readonly check: (text: string, connector: Connector, measurer: Measurer) => CheckedText;
  readonly format: (text: string) => string;
  /** Clock and timer of the search for paths and the measuring of clearances; by default those of the host. */
  readonly surroundings?: Surroundings;
}
