import type { MenuCommand } from './contract.ts';

/** A menu line, in the words of `electron.MenuItemConstructorOptions`. */
export interface MenuLine {
  readonly label?: string;
  readonly role?:
    | 'quit'
    | 'close'
    | 'undo'
    | 'redo'
    | 'cut'
    | 'copy'
    | 'paste'
    | 'selectAll'
    | 'togglefullscreen'
    | 'minimize'
    | 'appMenu';
  readonly type?: 'separator';
  readonly accelerator?: string;
  readonly click?: () => void;
  readonly submenu?: MenuLine[];
}

/**
 * The menu bar. Its own lines only tell the window what was asked; what they do is the window's business.
 *
 * @param send - Hands a command to the window.
 */
export function menuTemplate(platform: string, send: (command: MenuCommand) => void): MenuLine[] {
  const line = (label: string, command: MenuCommand, accelerator?: string): MenuLine => ({
    label,
    click: () => {
      send(command);
    },
    ...(accelerator === undefined ? {} : { accelerator }),
  });
  const separator: MenuLine = { type: 'separator' };
  const isMac = platform === 'darwin';
  return [
    ...(isMac ? [{ role: 'appMenu' } satisfies MenuLine] : []),
    {
      label: '&Study',
      submenu: [
        line('Open study …', 'openStudy', 'CmdOrCtrl+O'),
        line('Bring in a body …', 'bringBody', 'CmdOrCtrl+I'),
        separator,
        line('Save picture …', 'savePicture', 'CmdOrCtrl+S'),
        line('Save numbers …', 'saveNumbers', 'CmdOrCtrl+Shift+S'),
        line('Print sheet …', 'printSheet', 'CmdOrCtrl+P'),
        separator,
        isMac ? { role: 'close' } : { role: 'quit' },
      ],
    },
    {
      label: '&Edit',
      submenu: [
        { role: 'undo' },
        { role: 'redo' },
        separator,
        { role: 'cut' },
        { role: 'copy' },
        { role: 'paste' },
        { role: 'selectAll' },
      ],
    },
    { label: '&View', submenu: [{ role: 'togglefullscreen' }, { role: 'minimize' }] },
    { label: '&Help', submenu: [line('Prove …', 'prove')] },
  ];
}
