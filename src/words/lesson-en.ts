/** English words of one part of the page; the German ones have the same shape. */
export const LESSON_EN = {};
