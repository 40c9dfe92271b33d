import {
  browserSupportsWebAuthn,
  startAuthentication,
  startRegistration,
  WebAuthnError,
} from '@simplewebauthn/browser';
import { askClub, Told } from '../here.ts';

type MadeFrom = Parameters<typeof startRegistration>[0]['optionsJSON'];
type AskedFrom = Parameters<typeof startAuthentication>[0]['optionsJSON'];

/** Makes a passkey on this device and tells the club of it. @throws Told, ClubRefused */
export async function addPasskey(label: string): Promise<void> {
  refuseWithout();
  const { challenge, options } = await askClub('beginPasskey', {});
  const response = await startRegistration({
    optionsJSON: options as unknown as MadeFrom,
  }).catch((error: unknown) => {
    throw (
      inWords(error) ??
      new Told('No passkey was made: it was canceled, or took too long. Try again when you like.')
    );
  });
  await askClub('addPasskey', { body: { challenge, label, response: { ...response } } });
}

/** Signs in by a passkey of this device. @throws Told, ClubRefused */
export async function signInByPasskey(): Promise<void> {
  refuseWithout();
  const { challenge, options } = await askClub('beginPasskeySignIn', {});
  const response = await startAuthentication({
    optionsJSON: options as unknown as AskedFrom,
  }).catch((error: unknown) => {
    throw (
      inWords(error) ??
      new Told(
        'No passkey was shown: it was canceled, took too long, or this device has none for the club. Try again, or sign in with your password.',
      )
    );
  });
  await askClub('passkeySignIn', { body: { challenge, response: { ...response } } });
}

function refuseWithout(): void {
  if (browserSupportsWebAuthn()) return;
  throw new Told('This browser does not do passkeys. Use your password here.');
}

/** What the device said, where it is worth a sentence of its own; browsers tell little, so that no page can find out. */
function inWords(error: unknown): Error | undefined {
  if (!(error instanceof Error)) return new Error(String(error));
  const code = error instanceof WebAuthnError ? error.code : undefined;
  if (code === 'ERROR_AUTHENTICATOR_PREVIOUSLY_REGISTERED') {
    return new Told('This device has a passkey of yours for the club already.');
  }
  if (code === 'ERROR_AUTHENTICATOR_MISSING_USER_VERIFICATION_SUPPORT') {
    return new Told(
      'This device does not check who holds it. Set a PIN, a fingerprint or a face on it first.',
    );
  }
  return ['NotAllowedError', 'AbortError'].includes(error.name) ? undefined : error;
}
