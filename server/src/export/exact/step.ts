/** An exact solid as the kernel writes it: ISO 10303-21 text by application protocol 242, in millimetres. */
import { ExactError, inRoom, type Oc, type Shape } from './kernel';
import { withTori } from './tori';

/** Of the kernel's own file system, which is memory. */
const FILE = '/part.step';

/** The text still names the kernel's own product: `finished` in export/step says what part it is. Throws `ExactError`. */
export function stepText(oc: Oc, shape: Shape): string {
  return inRoom(oc, 'writing the part', (room) => {
    // The writer's settings are there once a writer is.
    room.keep(new oc.STEPControl_Writer());
    setting(oc.Interface_Static.SetCVal('write.step.schema', 'AP242DIS'), 'AP242');
    setting(oc.Interface_Static.SetCVal('write.step.unit', 'MM'), 'millimetres');
    // Curves in a surface's own parameters are the kernel's business: any reader works them out from the edges.
    setting(oc.Interface_Static.SetIVal('write.surfacecurve.mode', 0), 'plain edges');
    const writer = room.keep(new oc.STEPControl_Writer());
    const progress = room.keep(new oc.Message_ProgressRange());
    const taken = writer.Transfer(onlySolid(oc, shape) ?? shape, 'STEPControl_AsIs', true, progress);
    if (taken !== 'IFSelect_RetDone') throw new ExactError('The geometry kernel could not turn the part into STEP.');
    if (writer.Write(FILE) !== 'IFSelect_RetDone')
      throw new ExactError('The geometry kernel could not write the part.');
    try {
      return withTori(oc.FS.readFile(FILE, { encoding: 'utf8' }) as unknown as string);
    } finally {
      oc.FS.unlink(FILE);
      // the session behind a writer keeps all it has written unless it is told to forget it
      const session = room.keep(writer.WS());
      session.ClearData(7);
      session.ClearData(1);
    }

    // A compound of one would be written as an assembly of one.
    function onlySolid(kernel: Oc, whole: Shape): Shape | undefined {
      const each = room.keep(new kernel.TopExp_Explorer(whole, 'TopAbs_SOLID', 'TopAbs_SHAPE'));
      if (!each.More()) throw new ExactError('Nothing is left of the body.');
      const first = room.keep(each.Current());
      each.Next();
      return each.More() ? undefined : first;
    }
  });
}

function setting(taken: boolean, what: string): void {
  if (!taken) throw new ExactError(`The geometry kernel does not offer ${what} for STEP.`);
}
