// When the crew starts and when it rests. Test strips are due after each break of half an hour and more.
import type { Rates } from '../../core/rates/schema';
import { DraftField } from '../ui/DraftField';
import { AssumedMark, LedgerRow } from '../ui/Ledger';
import { isAssumed, useLive } from './session';

type Clock = Rates['welding']['clock'];

export function ClockRows() {
  const { job, actions } = useLive();
  const { clock } = job.rates.welding;
  const set = <K extends keyof Clock>(key: K, value: Clock[K]): string | null =>
    actions.run({ kind: 'setRate', path: ['welding', 'clock', key], value });
  const mark = (key: keyof Clock) =>
    isAssumed(job, `rates.welding.clock.${key}`) && <AssumedMark onConfirm={() => set(key, clock[key])} />;
  return (
    <>
      <LedgerRow
        name="Work starts at"
        figure={
          <DraftField
            label="Work starts at"
            shown={clock.start}
            onCommit={(text) => {
              const time = readTime(text);
              return time === null ? SAY_TIME : set('start', time);
            }}
          />
        }
        reason={mark('start')}
      />
      <LedgerRow
        wide
        name="Breaks"
        figure={
          <DraftField
            label="Breaks, each its time and minutes"
            align="left"
            placeholder="none"
            shown={clock.breaks.map(({ at, minutes }) => `${at} for ${minutes}`).join(', ')}
            onCommit={(text) => {
              const breaks = readBreaks(text);
              return breaks === null
                ? 'Write each as its time and minutes, such as 12:00 for 45.'
                : set('breaks', breaks);
            }}
          />
        }
        reason={<>{mark('breaks')} minutes; from 30 on new strips are due</>}
      />
    </>
  );
}

const SAY_TIME = 'Write a time as hours and minutes, such as 07:30.';

/** 7, 7:30, 7.30 and 0730 are all read. */
export function readTime(text: string): string | null {
  const match = /^\s*(\d{1,2})(?:[:.h ]?(\d{2}))?\s*$/.exec(text);
  const [hours, minutes] = [Number(match?.[1]), Number(match?.[2] ?? 0)];
  if (!match || hours > 23 || minutes > 59) return null;
  return `${String(hours).padStart(2, '0')}:${String(minutes).padStart(2, '0')}`;
}

function readBreaks(text: string): Clock['breaks'] | null {
  const parts = text.split(/[,;]/).filter((part) => part.trim() !== '');
  const breaks = parts.map((part) => {
    const [, time = '', minutes = ''] =
      /^\s*([\d:.h]+)\s*(?:for|,|\s)\s*(\d+)\s*(?:min)?\s*$/.exec(part) ?? [];
    const at = readTime(time);
    return at !== null && Number(minutes) > 0 ? { at, minutes: Number(minutes) } : null;
  });
  return breaks.every((one) => one !== null) ? breaks : null;
}
