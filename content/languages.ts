// The languages, each by its own name, as a list shows them.

export const LANGUAGES = { en: 'English', de: 'Deutsch', es: 'Español', fr: 'Français', pl: 'Polski' } as const
export type Language = keyof typeof LANGUAGES
