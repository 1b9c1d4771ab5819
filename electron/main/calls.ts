// Calls of the page: only from the main frame of our own address, each parsed by its channel's schema.
import { ipcMain, type IpcMainInvokeEvent } from 'electron';
import { channelNames } from '../../shared/channels/channels';
import { failed, type Outcome } from '../../shared/errors/failure';
import { answerCall } from '../handlers/answerCall';
import type { Services } from '../handlers/services';
import { isOurs } from './address';
import type { CloseGuard } from './closeGuard';

export function answerCalls(services: Services, guard: CloseGuard): void {
  for (const name of channelNames) {
    ipcMain.handle(`call:${name}`, async (event, request: unknown): Promise<Outcome<unknown>> => {
      if (!fromOurPage(event)) {
        services.mistake(
          name,
          new Error(`refused a call from ${event.senderFrame?.url ?? 'a frame that is gone'}`),
        );
        return failed('not-allowed', name, 'this page may not call the program', 'Restart the program');
      }
      if (name === 'saveJob') guard.saveStarted();
      const outcome = await answerCall(name, request, services);
      if (name === 'saveJob') guard.saveEnded(outcome.ok && outcome.value !== null ? 'saved' : 'not saved');
      return outcome;
    });
  }
}

function fromOurPage({ senderFrame, sender }: IpcMainInvokeEvent): boolean {
  return senderFrame !== null && senderFrame === sender.mainFrame && isOurs(senderFrame.url);
}
