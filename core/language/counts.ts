/** The most slots that a text may have, and the most of all that is counted along them: poles, paths, repetitions. */
export const mostSlots = 2400;
