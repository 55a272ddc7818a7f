import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { shopModel } from '../../core/facts/shop.ts';
import type { Steps } from '../../core/figures/steps.ts';
import type { Picture } from '../../core/picture/picture.ts';
import { svgSteps } from '../../core/picture/svg.ts';
import { sheetPlan } from '../../core/sheets/sheets.ts';
import { stepFileSteps } from '../../core/space/cad/writeStep.ts';
import { stlSteps } from '../../core/space/cad/writeStl.ts';
import { study } from '../../core/study.ts';
import { viewNames, viewSteps } from '../../core/views/views.ts';

/** The longest time of some making of files in which a press on Cancel is not heard. */
export interface LongestStep {
  readonly what: string;
  /** Milliseconds of processor time. */
  readonly time: number;
}

/** What a watch saw. */
interface Watch {
  readonly heard: () => void;
  readonly longest: () => number;
}

/** Milliseconds of processor time: what other programs take is no part of a step. */
function spent(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

function watch(): Watch {
  let [from, longest] = [spent(), 0];
  const heard = () => {
    const now = spent();
    longest = Math.max(longest, now - from);
    from = now;
  };
  return {
    heard,
    longest: () => {
      heard();
      return longest;
    },
  };
}

type Writers = typeof import('../../core/picture/fileFormats.ts');

/** The writers as the extension loads them. */
function fileFormats(): Writers {
  return createRequire(`${process.cwd()}/`)('./dist/fileFormats/fileFormats.js');
}

/** The longest steps of everything that is exported of a winding, as the extension exports it. */
export async function longestSteps(text: string): Promise<readonly LongestStep[]> {
  const studied = study(text);
  const { facts, title, specification, findings, limits } = studied;
  if (facts === null) throw new Error('a bench text without a winding');
  // The study is there when something is exported.
  studied.report();
  const times: LongestStep[] = [];
  const stepwise = <Result>(what: string, begin: () => Steps<Result>): Result => {
    const { heard, longest } = watch();
    const steps = begin();
    for (;;) {
      const step = steps.next();
      if (step.done) {
        times.push({ what, time: longest() });
        return step.value;
      }
      heard();
    }
  };
  for (const view of viewNames)
    stepwise(`view ${view}`, () => viewSteps({ title, specification, facts }, view));
  const plan = stepwise('plan of the sheets', () =>
    sheetPlan({ facts, specification, title, findings, limits, fileHash: '' }),
  );
  const sheets = stepwise('sheets', () => plan.draw());
  const { heard, longest } = watch();
  heard();
  const { dxfSteps, pictureToPdf } = fileFormats();
  times.push({ what: 'loading the writers of files', time: longest() });
  stepwise('sheets as SVG', () => svgSteps(sheets[0]!));
  stepwise('sheets as DXF', () => dxfSteps(sheets));
  times.push({ what: 'sheets as PDF', time: await pdfStep(sheets, pictureToPdf) });
  const model = shopModel(facts, title, { shape: null, state: 'finished' });
  if (model.known) {
    stepwise('bars as STEP', () => stepFileSteps(model.value));
    stepwise('bars as STL', () => stlSteps(model.value));
  }
  return times;
}

async function pdfStep(sheets: readonly Picture[], write: Writers['pictureToPdf']): Promise<number> {
  const { heard, longest } = watch();
  await write(sheets, {
    metadata: { title: '' },
    fontBytes: readFileSync('dist/fileFormats/DejaVuSansCondensed.ttf'),
    pause: async () => heard(),
  });
  return longest();
}
