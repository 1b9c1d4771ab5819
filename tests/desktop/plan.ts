// The plan on screen, used as a person would: points of the page are clicked where the camera shows them.
import type { Page } from 'playwright';

export type PagePoint = readonly [number, number];

/** Clicks points of the page, in points from its lower left, y up. */
export async function clickPlan(page: Page, points: readonly PagePoint[]): Promise<void> {
  for (const point of points) {
    const [x, y] = await onScreen(page, point);
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.up();
  }
}

export async function onScreen(page: Page, [x, y]: PagePoint): Promise<PagePoint> {
  const canvas = page.getByRole('application', { name: 'Plan' });
  const box = await canvas.boundingBox();
  const camera = (await canvas.getAttribute('data-camera')) ?? '';
  const [scale = NaN, tx = NaN, ty = NaN] = camera.split(' ').map(Number);
  if (!box || Number.isNaN(ty)) throw new Error(`the plan has no camera: “${camera}”`);
  return [box.x + tx + scale * x, box.y + ty - scale * y];
}

export type StageName = 'Plan' | 'Roof' | 'Sheets' | 'Welds' | 'Order' | 'Bid';

export function stageButton(page: Page, stage: StageName) {
  return page
    .getByRole('navigation', { name: 'Stages' })
    .getByRole('button', { name: new RegExp(`^${stage}\\b`) });
}

/** The figure that a stage wears in the rail, such as `30 rolls`, with plain spaces and none between digits. */
export async function headline(page: Page, stage: StageName): Promise<string> {
  const text = (await stageButton(page, stage).innerText()).replace(/[\u00a0\u2009\u202f]/g, ' ');
  const [, figure = ''] = text.split('\n').filter((line) => line.trim() !== '');
  return figure.replace(/(\d) (?=\d)/g, '$1').trim();
}

export interface Figures {
  readonly roof: string;
  readonly rolls: string;
  readonly metres: string;
  readonly total: string;
}

export async function figuresOf(page: Page): Promise<Figures> {
  return {
    roof: await headline(page, 'Roof'),
    rolls: await headline(page, 'Sheets'),
    metres: await headline(page, 'Welds'),
    total: await headline(page, 'Bid'),
  };
}
