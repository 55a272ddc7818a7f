import { Color, SRGBColorSpace } from 'three';

/** The editor's colors at present. */
export interface ThemeColors {
  /** Those of the phases, in order; also of paths and layers. */
  readonly phases: readonly Color[];
  readonly ink: Color;
  readonly quiet: Color;
  readonly ground: Color;
  readonly fault: Color;
  /** The ground as the page writes it. */
  readonly groundWords: string;
  readonly inkWords: string;
}

const phaseNames = ['a', 'b', 'c', 'd', 'e', 'f', 'g'];

/** Reads the colors that the page's style sheet gives to pictures in this element. */
export function themeColors(area: HTMLElement): ThemeColors {
  const probe = document.createElement('span');
  probe.className = 'picture';
  area.append(probe);
  const context = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
  const words = (value: string) => {
    probe.style.color = value;
    return getComputedStyle(probe).color;
  };
  // The style may name a color in any way; a pixel has it in numbers.
  const color = (value: string) => {
    if (context === null) return new Color();
    context.fillStyle = words(value);
    context.fillRect(0, 0, 1, 1);
    const [red, green, blue] = context.getImageData(0, 0, 1, 1).data;
    return new Color().setRGB(red! / 255, green! / 255, blue! / 255, SRGBColorSpace);
  };
  const ground = 'var(--vscode-editor-background, canvas)';
  const colors = {
    phases: phaseNames.map((name) => color(`var(--phase-${name})`)),
    ink: color('var(--ink)'),
    quiet: color('var(--quiet)'),
    ground: color(ground),
    fault: color('var(--fault)'),
    groundWords: words(ground),
    inkWords: words('var(--ink)'),
  };
  probe.remove();
  return colors;
}
