/**
 * The finger that opened a menu by being held is let go over it: that presses nothing. Without this the browser
 * takes it for a tap on whatever has come under the finger.
 */
export function ignoreLetGo(): void {
  const letGo = (event: TouchEvent): void => event.preventDefault();
  const over = (): void => {
    document.removeEventListener('touchend', letGo, true);
    document.removeEventListener('pointerdown', over, true);
  };
  document.addEventListener('touchend', letGo, { capture: true, passive: false });
  document.addEventListener('pointerdown', over, true);
}
