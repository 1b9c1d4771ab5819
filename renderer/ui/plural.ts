// "1 box", "8 boxes": for the pack names that people type, which are plain nouns.
export function counted(count: number, word: string): string {
  return count === 1 ? word : /(x|s|ch|sh)$/.test(word) ? `${word}es` : `${word}s`;
}
