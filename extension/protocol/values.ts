/** A value's fields, nothing known of them yet. */
export type Fields = Readonly<Record<string, unknown>>;

/** Whether a value has fields to look at. */
export function isRecord(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Whether a value has no fields but these. */
export function hasOnly(value: Fields, names: readonly string[]): boolean {
  return Object.keys(value).every((name) => names.includes(name));
}

export function isListOf<Item>(
  value: unknown,
  isItem: (item: unknown) => item is Item,
): value is readonly Item[] {
  return Array.isArray(value) && value.every(isItem);
}

export function isText(value: unknown): value is string {
  return typeof value === 'string';
}

export function isTexts(value: unknown): value is readonly string[] {
  return isListOf(value, isText);
}

/** Whether a value is a whole number. */
export function isCount(value: unknown): value is number {
  return Number.isInteger(value);
}

/** Whether a value has texts under these names. */
export function hasTexts(value: unknown, names: readonly string[]): value is Fields {
  return isRecord(value) && names.every((name) => typeof value[name] === 'string');
}

/** Whether a value is a length above 0. */
export function isSize(value: unknown): boolean {
  return typeof value === 'number' && Number.isFinite(value) && value > 0;
}
