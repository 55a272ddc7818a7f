import { afterEach, expect, test, vi } from 'vitest';
import { controlLoadedLater } from '../../../extension/webview/loadedLater.ts';

afterEach(() => vi.unstubAllGlobals());

/** As much of a page as the part that is loaded later asks for: its elements by their ids, and the script it adds. */
function pageInMemory() {
  const elements = new Map<string, EventTarget & { dataset: object; click: () => void }>();
  const scripts: (EventTarget & { src?: string })[] = [];
  const element = () => {
    const made = Object.assign(new EventTarget(), { dataset: { script: 'later.js' }, click: () => {} });
    made.click = () => made.dispatchEvent(new Event('click'));
    return made;
  };
  const getElementById = (id: string) => elements.get(id) ?? elements.set(id, element()).get(id);
  const body = { append: (script: EventTarget) => scripts.push(script) };
  vi.stubGlobal('document', { getElementById, createElement: element, body });
  const page = Object.assign(new EventTarget(), { slotwrightLater: undefined as unknown });
  vi.stubGlobal('window', page);
  return { button: (name: string) => getElementById(`panel-${name}`)!, scripts, page };
}

test('what is pressed before the part that hears it is there is pressed again once it is, and once only', () => {
  const { button, scripts, page } = pageInMemory();
  controlLoadedLater({} as Parameters<typeof controlLoadedLater>[0]);
  expect(scripts).toEqual([]);
  button('by-hand').click();
  expect(scripts).toHaveLength(1);
  const heard = vi.fn();
  page.slotwrightLater = () => {
    button('by-hand').addEventListener('click', heard);
    return { show: () => {} };
  };
  scripts[0]!.dispatchEvent(new Event('load'));
  expect(heard).toHaveBeenCalledTimes(1);
  button('by-hand').click();
  expect(heard).toHaveBeenCalledTimes(2);
  expect(scripts).toHaveLength(1);
});

test('nothing is pressed where the part cannot be had', () => {
  const { button, scripts } = pageInMemory();
  controlLoadedLater({} as Parameters<typeof controlLoadedLater>[0]);
  const pressed = vi.fn();
  button('keep').addEventListener('click', pressed);
  button('keep').click();
  Object.assign(scripts[0]!, { remove: () => {} }).dispatchEvent(new Event('error'));
  expect(pressed).toHaveBeenCalledTimes(1);
});
