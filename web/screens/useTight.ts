import { useLayoutEffect, useState } from 'preact/hooks'

/** Less height than this is a phone on its side: it scrolls. In CSS pixels. */
const UPRIGHT = 480

/**
 * How little room the screen has: 0, all fits; 1, the reason must go (one tap brings it); 2, even so it does not fit, and the
 * buttons come after the words instead of lying over them.
 */
export const useTight = (): 0 | 1 | 2 => {
  const [tight, setTight] = useState<0 | 1 | 2>(0)
  useLayoutEffect(() => {
    const over = document.documentElement.scrollHeight > innerHeight && innerHeight > UPRIGHT
    if (over && tight < 2) setTight(tight === 0 ? 1 : 2)
  })
  useLayoutEffect(() => {
    const again = () => setTight(0)
    addEventListener('resize', again)
    return () => removeEventListener('resize', again)
  }, [])
  return tight
}
