// The rules of the trade that a job can switch off, each with the sources of what the verifier then lets pass.
import type { TradeRule } from '../sheets/types';
import { RULES, type Rule } from './rules';

export const TRADE_RULE_SOURCES: readonly {
  readonly rule: TradeRule;
  readonly sources: readonly string[];
}[] = byTradeRule(Object.values(RULES));

function byTradeRule(rules: readonly Rule[]) {
  const sources = new Map<TradeRule, string[]>();
  for (const { off, source } of rules) if (off) sources.set(off, [...(sources.get(off) ?? []), source]);
  return [...sources].map(([rule, own]) => ({ rule, sources: own }));
}
