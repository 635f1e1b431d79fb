import { useLayoutEffect, useState } from 'preact/hooks'

/** How little room the screen has: 0, all fits; 1, the reason must go (one tap brings it); 2, even so it does not fit. */
export const useTight = (): 0 | 1 | 2 => {
  const [tight, setTight] = useState<0 | 1 | 2>(0)
  useLayoutEffect(() => {
    const over = document.documentElement.scrollHeight > innerHeight
    if (over && tight < 2) setTight(tight === 0 ? 1 : 2)
  })
  useLayoutEffect(() => {
    const again = () => setTight(0)
    addEventListener('resize', again)
    return () => removeEventListener('resize', again)
  }, [])
  return tight
}
