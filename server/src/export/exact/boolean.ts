/** Volumes joined and taken from each other. Throws where the kernel cannot. */
import { ExactError, type Room, type Shape } from './kernel';

/** What is left of a shape. */
export function subtract(room: Room, shape: Shape, cutters: readonly Shape[]): Shape {
  return operated(room, new room.oc.BRepAlgoAPI_Cut(), [shape], cutters);
}

/** All of them as one. */
export function joined(room: Room, shapes: readonly Shape[]): Shape {
  return operated(room, new room.oc.BRepAlgoAPI_Fuse(), shapes.slice(0, 1), shapes.slice(1));
}

type Operation = InstanceType<Room['oc']['BRepAlgoAPI_Cut']> | InstanceType<Room['oc']['BRepAlgoAPI_Fuse']>;

function operated(room: Room, operation: Operation, shapes: readonly Shape[], tools: readonly Shape[]): Shape {
  room.keep(operation);
  operation.SetArguments(listOf(room, shapes));
  operation.SetTools(listOf(room, tools));
  operation.SetRunParallel(false);
  operation.Build(room.keep(new room.oc.Message_ProgressRange()));
  const made = operation.IsDone() && !operation.HasErrors() ? room.keep(operation.Shape()) : undefined;
  // what it found out on the way stays in the kernel's memory unless it is told to forget it
  operation.Clear();
  if (!made) throw new ExactError('its volumes could not be put together');
  return made;
}

function listOf(room: Room, shapes: readonly Shape[]) {
  const list = room.keep(new room.oc.NCollection_List_TopoDS_Shape());
  for (const shape of shapes) room.keep(list.Append(shape));
  return list;
}

/**
 * Faces and edges of one surface or curve that lie side by side made one: layers of one pocket, bores end to end.
 * The shape as it was where that would change it.
 */
export function tidied(room: Room, shape: Shape): Shape {
  const unify = room.keep(new room.oc.ShapeUpgrade_UnifySameDomain(shape, true, true, false));
  unify.Build();
  const made = room.keep(unify.Shape());
  const whole = volumeIn(room, shape);
  return Math.abs(volumeIn(room, made) - whole) <= 1e-8 * whole && isValid(room, made) ? made : shape;
}

export function isValid(room: Room, shape: Shape): boolean {
  const { oc } = room;
  const check = room.keep(new oc.BRepCheck_Analyzer(shape, true, false, false));
  const valid = check.IsValid();
  // its results stay in the kernel's memory until it looks at something else: a single point
  const origin = room.keep(new oc.gp_Pnt(0, 0, 0));
  check.Init(room.keep(room.keep(new oc.BRepBuilderAPI_MakeVertex(origin)).Vertex()), true);
  return valid;
}

/** mm³, by a fixed number of points a face: to about eight digits. */
export function volumeIn(room: Room, shape: Shape): number {
  const whole = room.keep(new room.oc.GProp_GProps());
  room.oc.BRepGProp.VolumeProperties(shape, whole, true, false, false);
  return whole.Mass();
}
