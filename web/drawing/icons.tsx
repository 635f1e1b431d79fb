// The project's own icons: strokes on a 24 px square, drawn for these screens. Symbols of circuits stand in symbols.tsx.

const paths = {
  why: 'M8 9a4 4 0 1 1 5.6 3.7c-1.2.6-1.6 1.3-1.6 2.8M12 19.5v.5',
  undo: 'M9 5L4 10l5 5M4 10h9a6 6 0 0 1 0 12h-3',
  cannot: 'M5 5l14 14M19 5L5 19',
  larger: 'M4 9V4h5M20 15v5h-5M4 4l6 6M20 20l-6-6',
  settings: 'M4 7h8M18 7h2M12 4.5v5h6v-5zM4 17h2M12 17h8M6 14.5v5h6v-5z',
  erase: 'M9 5h12v14H9l-6-7zM12 9l5 6M17 9l-5 6',
  back: 'M14 5l-7 7 7 7',
  hand: 'M3 14l5-5h4l3 3h-5M15 12l5-4M3 20h10l8-8',
  codes: 'M4 4h6v6H4zM14 4h6v6h-6zM4 14h6v6H4zM14 14h3v3h-3zM19 18v2h-4',
  saved: 'M4 13l6 6L20 6',
  below: 'M5 9l7 7 7-7',
  end: 'M6 3v18M6 4h12l-4 5 4 5H6',
  file: 'M6 3h8l5 5v13H6zM14 3v5h5',
} as const
export type IconName = keyof typeof paths

/** Beside its word, never instead of it: a reader of the screen hears the word alone. */
export const Icon = ({ name }: { name: IconName }) => (
  <svg class="icon" width={24} height={24} viewBox="0 0 24 24" aria-hidden="true">
    <path d={paths[name]} />
  </svg>
)
