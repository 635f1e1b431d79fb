import { useEffect } from 'preact/hooks'

const isAway = () => (history.state as { away?: boolean } | null)?.away === true

/**
 * The phone's own way back leads from any screen to the first one, where a session can be gone on with; without this it would close the
 * app. Gives the same way back for a button.
 */
export const useBack = (away: boolean, home: () => void): (() => void) => {
  useEffect(() => {
    if (away && !isAway()) history.pushState({ away: true }, '')
  }, [away])
  useEffect(() => {
    addEventListener('popstate', home)
    return () => removeEventListener('popstate', home)
  })
  return () => (isAway() ? history.back() : home())
}
