// What the page says when the other side cannot answer.
export function wordsOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
