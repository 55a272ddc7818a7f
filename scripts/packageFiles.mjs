import { existsSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { root } from './shell.mjs';

/** Files always packed beside the allow-list. */
const always = ['package.json'];

const plain = (path) => path.replace(/^\.\//, '');

/** Every file that the manifest points to for the editor; its command line has a package of its own. */
export function referencedFiles(manifest) {
  const { contributes = {} } = manifest;
  const languages = (contributes.languages ?? []).flatMap(({ configuration, icon }) => [
    configuration,
    icon?.light,
    icon?.dark,
  ]);
  const grammars = [...(contributes.grammars ?? []), ...(contributes.snippets ?? [])].map(({ path }) => path);
  const commandIcons = (contributes.commands ?? []).flatMap(({ icon }) =>
    typeof icon === 'object' ? [icon.light, icon.dark] : [],
  );
  const steps = (contributes.walkthroughs ?? []).flatMap(({ steps }) => steps.map(({ media }) => media.svg));
  const paths = [
    manifest.main,
    manifest.browser,
    manifest.icon,
    ...languages,
    ...grammars,
    ...commandIcons,
    ...steps,
  ];
  return paths.filter((path) => path !== undefined).map(plain);
}

/** What the manifest points to but the package would lack; the files of the panels' pages, the engine, the parts loaded on demand and the drawing formats are loaded by name. */
export function missingFiles(manifest, files) {
  const wanted = [
    ...referencedFiles(manifest),
    'dist/extension/engine.js',
    'dist/extension/onDemand.js',
    'dist/extension/shared.js',
    'dist/extension/tableReader.js',
    'dist/extension/panel.js',
    'dist/extension/space.js',
    'dist/extension/variants.js',
    'dist/extension/later.js',
    'dist/extension/comparison.js',
    'dist/extension/german.js',
    'dist/extension/panel.css',
    'dist/extension/comparison.css',
    'dist/fileFormats/fileFormats.js',
    'dist/fileFormats/DejaVuSansCondensed.ttf',
    'dist/fileFormats/FONT-LICENSE.txt',
    'dist/THIRD-PARTY-NOTICES.txt',
    'package.nls.json',
    'package.nls.de.json',
    'media/extension.md',
    'dist/CHANGELOG.md',
    'LICENSE',
  ];
  return wanted.filter((path) => !files.includes(path));
}

/** What the package would hold without being on the allow-list. */
export function strayFiles(manifest, files) {
  const allowed = [...always, ...manifest.files];
  return files.filter((path) => !allowed.some((entry) => isAllowed(path, entry)));
}

/** Whether an entry of the allow-list is a file, a folder around it, or names its kind: `examples/*.winding`. */
function isAllowed(path, entry) {
  const [folder, ending, ...more] = entry.split('*');
  if (ending === undefined) return path === entry || path.startsWith(`${entry}/`);
  const name = path.slice(folder.length, -ending.length);
  return more.length === 0 && path === folder + name + ending && !name.includes('/');
}

/** The files and folders of the project that an allow-list names, as far as they are there. */
export function allowedPaths(entries) {
  const inFolder = (entry) =>
    readdirSync(join(root, dirname(entry))).map((name) => `${dirname(entry)}/${name}`);
  return entries
    .flatMap((entry) =>
      entry.includes('*') ? inFolder(entry).filter((path) => isAllowed(path, entry)) : entry,
    )
    .filter((path) => existsSync(join(root, path)));
}
