// Words of the phone in the hand: settings, larger drawings, what is left, handing on. English.

export const phone = {
  larger: 'Larger drawing',
  settings: {
    title: 'Settings',
    hand: 'The thumb that taps',
    theme: 'Light or dark',
    sound: 'Sound',
    vibration: 'Vibration',
    values: { right: 'Right', left: 'Left', light: 'Light', dark: 'Dark', phone: 'As the phone', on: 'On', off: 'Off' },
    extra: 'Sound and vibration are never needed: the screen says all of it.',
  },
  left: {
    metres: (metres: number, minutes: number) => `${metres} m, ${minutes} min left`,
    branches: (branches: number, minutes: number) => `${branches === 1 ? '1 branch' : `${branches} branches`}, ${minutes} min left`,
  },
  scale: {
    ask: (shown: string) => `${shown} fits nothing here. A value 1000 times that or a thousandth of it does. Which did the display show?`,
    pick: (value: string) => `It showed ${value}`,
  },
  spoke: {
    title: 'What spoke for and against',
    branch: (id: string) => `Branch ${id}`,
    for: 'For:',
    against: 'Against:',
    share: (before: number, after: number) => `(${before} → ${after} of 100)`,
    nothing: 'No answer has moved a branch so far.',
  },
  handOn: {
    file: 'Hand on as a file',
    codes: 'Hand on as codes',
    lead: 'The session goes on at the other phone. What was proved dead must be proved dead there again.',
    code: (n: number, of: number) => `Code ${n} of ${of}`,
    next: 'Next code',
    close: 'Codes are read',
    read: 'Read this with the other phone: Take over a session.',
    ended: 'This session has ended. There is nothing to take over.',
  },
}
