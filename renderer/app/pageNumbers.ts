// Page numbers as a person writes them: 1, 4-6.

export function readNumbers(text: string, most: number): readonly number[] | { readonly fault: string } {
  const numbers = new Set<number>();
  for (const part of text.split(/[,;]|\s+(?![-–])/).map((one) => one.trim())) {
    if (part === '') continue;
    const [, from, to] = /^(\d+)(?:\s*[-–]\s*(\d+))?$/.exec(part) ?? [];
    if (from === undefined) return { fault: `“${part}” is no page number: write them as 1, 4-6.` };
    const [first, last] = [Number(from), Number(to ?? from)];
    if (first < 1 || last > most || last < first)
      return { fault: `The pages are 1 to ${most}: “${part}” is none of them.` };
    for (let number = first; number <= last; number++) numbers.add(number);
  }
  return [...numbers].sort((a, b) => a - b);
}

export function listNumbers(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last && last[1] === number - 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs.map(([from, to]) => (from === to ? String(from) : `${from}-${to}`)).join(', ');
}
