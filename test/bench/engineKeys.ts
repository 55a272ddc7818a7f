import { checkText } from '../../core/findings/checkedText.ts';
import { studyOf } from '../../core/study.ts';
import { createBackgroundConnector } from '../../extension/engine/backgroundConnector.ts';
import { createBackgroundMeasurer } from '../../extension/engine/backgroundMeasurer.ts';

// The engine's own share of a keystroke, to be run in the very worker whose extensions are profiled.

const surroundings = { now: () => performance.now(), later: (work: () => void) => void setTimeout(work, 0) };

/** What a keystroke needs: findings, factors, MMF and the layout picture; paths and ends are kept that are known. */
function engineKeys() {
  const { connect } = createBackgroundConnector(surroundings, () => {});
  const measurer = createBackgroundMeasurer(surroundings, () => {});
  return {
    /** Comes back once paths are found and ends measured. */
    settle: async (text: string) => {
      for (;;) {
        const { pending, measuring } = checkText(text, connect, measurer);
        if (!(pending || measuring)) return;
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
    },
    key: (text: string) => {
      const studied = studyOf(checkText(text, connect, measurer));
      studied.findings.length;
      studied.factorRows();
      studied.keyFigures();
      studied.layoutPicture();
    },
  };
}

Object.assign(globalThis, { engineKeys: engineKeys() });
