import { Dialog } from './dialog.tsx';

interface FileRefusedProps {
  readonly says: string;
  readonly onClose: () => void;
}

/** Why a file was not opened. */
export default function FileRefused({ says, onClose }: FileRefusedProps) {
  return (
    <Dialog title="That file was not opened" onClose={onClose}>
      <p className="complaint">{says}</p>
      <p className="quiet">Nothing here was changed.</p>
    </Dialog>
  );
}
