namespace SensorLab.Simulation.Flaws;

/// <summary>The body records fewer codes, in steps that grow with the signal, and files carry the table back.</summary>
internal sealed class RawCompanded : IFlaw
{
    public string Code => "raw-companded";

    public string Meaning => "the widest step of codes";

    public FlawSize Size => new("dn", 8, 1, 64);

    public void ChangePlan(FlawScene scene)
    {
        ushort[] table = Table(scene.Body.LargestCodeDn, scene.Size);
        scene.Change(_ => true, frame =>
        {
            Rehearsals.PlannedFrame coarse = frame.WithEffect((codes, _) => Round(codes, table));
            return coarse with
            {
                Raw = coarse.Raw with { IsCompanded = true },
                Form = coarse.Form with { LinearisationTable = table },
            };
        });
    }

    // Steps grow linearly from 1 at code 0 to the widest at the largest code; the last entry is the largest code itself.
    private static ushort[] Table(int largest, double widest)
    {
        var table = new List<ushort>();
        double code = 0;
        while (code < largest)
        {
            table.Add((ushort)Math.Round(code));
            code += 1 + ((widest - 1) * code / largest);
        }

        table.Add((ushort)largest);
        return [.. table.Distinct()];
    }

    private static void Round(Span<ushort> codes, ushort[] table)
    {
        foreach (ref ushort code in codes)
        {
            code = table[Writing.CodeTable.NearestIndex(table, code)];
        }
    }
}
