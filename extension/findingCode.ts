import { type Diagnostic, Uri } from 'vscode';

/** The scheme of the pages of the reference: they are made when they are read. */
export const referenceScheme = 'slotwright-reference';

const pages = new Map<string, Uri>();

/** What a click on the code of a finding opens: the page about it. */
export function explanation(code: string): Uri {
  let page = pages.get(code);
  if (page === undefined) {
    page = Uri.parse(`command:slotwright.openReference?${encodeURIComponent(JSON.stringify([{ code }]))}`);
    pages.set(code, page);
  }
  return page;
}

/** The code of a finding that a diagnostic of ours shows. */
export function codeOf({ code }: Diagnostic): string {
  return String(typeof code === 'object' ? code.value : code);
}
