/**
 * Whether `npm ci` has to run: compares what package-lock.json asks for with what npm noted as installed in
 * node_modules/.package-lock.json. Optional packages (those for other systems) may be absent.
 */
export function installNeeded(locked, installed) {
  if (locked === null) throw new Error('package-lock.json is missing: clone the whole repository');
  if (installed === null) return true;
  const wanted = Object.entries(locked.packages).filter(([path]) => path !== '');
  return wanted.some(([path, entry]) => {
    const present = installed.packages[path];
    if (present === undefined) return entry.optional !== true;
    return present.version !== entry.version || present.integrity !== entry.integrity;
  });
}
