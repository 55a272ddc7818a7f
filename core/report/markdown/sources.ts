/** The sources that a report's tables name, each by a number where it is used and in words at the end. */
export interface Sources {
  /** The mark of a source, `[3]`; sources are numbered as they are first named. */
  mark(source: string): string;
  /** All that were named, each after its mark, in the order of their numbers. */
  named(): readonly string[];
}

/** No source named yet. */
export function newSources(): Sources {
  const named: string[] = [];
  return {
    mark: (source) => {
      if (!named.includes(source)) named.push(source);
      return `[${named.indexOf(source) + 1}]`;
    },
    named: () => named.map((source, i) => `[${i + 1}] ${source}`),
  };
}
