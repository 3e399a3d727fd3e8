/** Pictures the server draws, asked for only when they come into sight and anew when the test changes. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { letGoLater, readWhole } from './server.ts';
import { words } from './words.ts';

interface PictureProps {
  /** Under the desk's interface, such as `test/ID/figure/braking?layout=wide`. */
  readonly path: string;
  readonly version: string;
  readonly alt: string;
  readonly class?: string;
}

export function Picture({ path, version, alt, class: className }: PictureProps) {
  const box = useRef<HTMLDivElement>(null);
  const [near, setNear] = useState(false);
  const [address, setAddress] = useState<string | undefined>(undefined);
  useEffect(() => {
    const watching = new IntersectionObserver(
      seen => {
        if (seen.some(({ isIntersecting }) => isIntersecting)) setNear(true);
      },
      { rootMargin: '300px' },
    );
    watching.observe(box.current!);
    return () => watching.disconnect();
  }, []);
  // A new version is drawn anew.
  useEffect(() => {
    if (!near) return;
    const gone = new AbortController();
    void readWhole(path, gone.signal)
      .then(blob => {
        if (!gone.signal.aborted) setAddress(URL.createObjectURL(blob));
      })
      .catch(() => {});
    return () => gone.abort();
  }, [near, path, version]);
  // The one before stays until the new one is there, and may still be on its way into the page.
  useEffect(() => (address === undefined ? undefined : () => letGoLater(address)), [address]);
  return (
    <div ref={box} class={className ?? 'picture'}>
      {address === undefined ? (
        <p class="hint">{words().figures.drawing}</p>
      ) : (
        <img src={address} alt={alt} />
      )}
    </div>
  );
}
