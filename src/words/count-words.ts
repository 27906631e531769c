/** `1 pass`, `2 passes`, `1,200 loops`: a count with its noun, as a language groups its figures. */
export function countIn(language: 'en' | 'de', count: number, singular: string, plural: string): string {
  return `${count.toLocaleString(language)} ${count === 1 ? singular : plural}`;
}
