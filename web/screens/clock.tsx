import { useEffect, useState } from 'preact/hooks'
import { words } from '../words.ts'

const two = (x: number) => String(x).padStart(2, '0')

/** Time since the session was started. */
export const Clock = ({ since }: { since: number }) => {
  const [now, setNow] = useState(Date.now)
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 1000)
    return () => clearInterval(timer)
  }, [])
  const s = Math.max(0, Math.floor((now - since) / 1000))
  const hours = Math.floor(s / 3600)
  return (
    <time role="timer" aria-label={words().session.time}>
      {hours > 0 ? `${hours}:` : ''}
      {two(Math.floor(s / 60) % 60)}:{two(s % 60)}
    </time>
  )
}
