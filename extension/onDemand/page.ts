import { Uri, type WebviewPanel } from 'vscode';
import { createNonce } from './nonce.ts';

/** What a page loads, and nothing else: one script and one style sheet, both by nonce; and what it loads later. */
export interface PageFiles {
  readonly nonce: string;
  readonly script: string;
  /** The script of the bars in space, which the panel's page loads when they are first shown. */
  readonly liveScript: string;
  /** Likewise of the variants. */
  readonly variantsScript: string;
  /** The script of drawing by hand, which it loads when a reader first draws. */
  readonly laterScript: string;
  readonly style: string;
}

/** Gives a panel its icon, its rights and its page, which loads the script and the style of a bundle. */
export function givePage(
  panel: WebviewPanel,
  extensionUri: Uri,
  bundle: string,
  page: (files: PageFiles) => string,
): void {
  const folder = Uri.joinPath(extensionUri, 'dist', 'extension');
  const { webview } = panel;
  panel.iconPath = {
    light: Uri.joinPath(extensionUri, 'media', 'layout-light.svg'),
    dark: Uri.joinPath(extensionUri, 'media', 'layout-dark.svg'),
  };
  webview.options = { enableScripts: true, localResourceRoots: [folder] };
  const address = (name: string) => webview.asWebviewUri(Uri.joinPath(folder, name)).toString();
  webview.html = page({
    nonce: createNonce(),
    script: address(`${bundle}.js`),
    liveScript: address('space.js'),
    variantsScript: address('variants.js'),
    laterScript: address('later.js'),
    style: address(`${bundle}.css`),
  });
}

/** The inside of a page's head: its policy, title and style sheet. `title` is escaped already. */
export function pageHead(nonce: string, style: string, title: string): string {
  const policy = `default-src 'none'; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}'; img-src data:; base-uri 'none'; form-action 'none'`;
  return `<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>${title}</title>
<link rel="stylesheet" nonce="${nonce}" href="${escapeHtml(style)}">`;
}

/** Text that is safe in the content of an element and in a quoted attribute. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);
}
