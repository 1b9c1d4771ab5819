// What the verifier holds against a layout.
export type Severity = 'error' | 'warning' | 'advice';

export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  readonly roof: string;
  /** Where on the roof, mm; null for what has no place. */
  readonly at: readonly [number, number] | null;
  readonly ids: readonly string[];
  readonly message: string;
  /** Where the rule comes from. */
  readonly source: string;
}
