/** Keeps a number and its unit on one line. */
export const whole = (text: string): string => text.replace(/(\d) (mV|V|mA|A|m|ms|s|min|kΩ|mΩ|MΩ|Ω)(?![\p{L}\d])/gu, '$1\u00a0$2')
