// A table that runs over pages with its head on each, in type for reading at arm's length; a cell may be a box to tick.
import type { TextStyle } from './canvas';
import { fitted, RULES, TYPE, type ListWriter } from './paper';

export interface Column {
  readonly title: string;
  /** Points. */
  readonly width: number;
  readonly align?: 'left' | 'right';
}

/** A box to tick, in place of words. */
export const TICK = '\u25a1';

const CELL: TextStyle = { size: 10 };
const ROW = 18;

export class Table {
  constructor(
    private readonly list: ListWriter,
    private readonly columns: readonly Column[],
  ) {
    this.head();
  }

  row(cells: readonly string[], weight: 'regular' | 'bold' = 'regular'): void {
    const { list } = this;
    const before = list.page;
    list.need(ROW + 2);
    if (list.page !== before) this.head();
    list.gap(ROW);
    this.across((column, x, k) => {
      const text = cells[k] ?? '';
      const at = column.align === 'right' ? x + column.width - 6 : x;
      const left = column.align === 'right' ? at - 12 : x + 1;
      if (text === TICK)
        list.page.box([left, list.y - 2], [left + 12, list.y + 10], { stroke: { width: 0.9 } });
      else
        list.page.text([at, list.y], fitted(list.pack, text, { ...CELL, weight }, column.width - 6), {
          ...CELL,
          weight,
          align: column.align ?? 'left',
        });
    });
    list.page.line([list.left, list.y - 5], [list.right, list.y - 5], RULES.thin);
  }

  /** A line over the whole width between rows. */
  band(text: string): void {
    const { list } = this;
    const before = list.page;
    list.need(2.4 * ROW);
    if (list.page !== before) this.head();
    list.gap(ROW + 4);
    list.page.text([list.left, list.y], text, { size: 11, weight: 'bold' });
    list.page.line([list.left, list.y - 5], [list.right, list.y - 5], RULES.firm);
  }

  private head(): void {
    const { list } = this;
    list.gap(13);
    this.across((column, x) =>
      list.page.text([column.align === 'right' ? x + column.width - 6 : x, list.y], column.title, {
        ...TYPE.small,
        size: 7.5,
        align: column.align ?? 'left',
      }),
    );
    list.page.line([list.left, list.y - 4], [list.right, list.y - 4], RULES.firm);
    list.gap(2);
  }

  private across(put: (column: Column, x: number, k: number) => void): void {
    let x = this.list.left;
    this.columns.forEach((column, k) => {
      put(column, x, k);
      x += column.width;
    });
  }
}
