using SensorLab.Frames;

namespace SensorLab.Simulation;

/// <summary>Something that a body does to the codes of a frame after its converter.</summary>
/// <param name="codes">All codes of the frame, stored rows × stored columns, changed in place.</param>
/// <param name="layout">The geometry of the frame.</param>
public delegate void ReadoutEffect(Span<ushort> codes, MosaicLayout layout);
