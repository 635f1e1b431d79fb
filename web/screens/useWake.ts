import { useEffect } from 'preact/hooks'

/** Keeps the screen lit during a session where the phone allows it; a phone that does not loses nothing, all is saved anyway. */
export const useWake = () => {
  useEffect(() => {
    let lock: WakeLockSentinel | undefined
    const ask = () => {
      if (document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return
      navigator.wakeLock.request('screen').then(
        held => {
          lock = held
        },
        () => undefined,
      )
    }
    ask()
    document.addEventListener('visibilitychange', ask)
    return () => {
      document.removeEventListener('visibilitychange', ask)
      lock?.release().catch(() => undefined)
    }
  }, [])
}
