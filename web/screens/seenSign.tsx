import { Device, type DeviceState, Lamp } from '../drawing/symbols.tsx'

/** What is seen, drawn on its answer button: the lamp or the device in that state. */
export const SeenSign = ({ look, value }: { look: string; value: string }) => (
  <svg width={56} height={56} viewBox="0 0 56 56" class="sign" aria-hidden="true">
    {look === 'device' ? (
      <>
        <path d="M28 4v10M28 42v10" />
        <Device x={28} y={14} state={value as DeviceState} />
      </>
    ) : (
      <Lamp x={28} y={28} state={value} />
    )}
  </svg>
)
