import { useEffect, useState } from 'react';

/** Takes files dropped anywhere on the page; true while one is held over it. */
export function useFileDrop(take: (files: readonly File[]) => void): boolean {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const drag = (event: DragEvent): void => {
      if (!bringsFiles(event)) return;
      event.preventDefault();
      setOver(true);
    };
    const leave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setOver(false);
    };
    const drop = (event: DragEvent): void => {
      if (!bringsFiles(event)) return;
      event.preventDefault();
      setOver(false);
      take([...(event.dataTransfer?.files ?? [])]);
    };
    window.addEventListener('dragover', drag);
    window.addEventListener('dragleave', leave);
    window.addEventListener('drop', drop);
    return () => {
      window.removeEventListener('dragover', drag);
      window.removeEventListener('dragleave', leave);
      window.removeEventListener('drop', drop);
    };
  }, [take]);
  return over;
}

function bringsFiles(event: DragEvent): boolean {
  return event.dataTransfer?.types.includes('Files') ?? false;
}
