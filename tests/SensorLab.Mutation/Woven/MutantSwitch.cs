namespace SensorLab.Mutation;

/// <summary>Tells mutated code which mutant lives, and notes which places were come by. The worker sets both.</summary>
internal static class MutantSwitch
{
    public static readonly bool[] Seen = new bool[100_000];

    public static int Alive = -1;

    public static bool Is(int mutant)
    {
        Seen[mutant] = true;
        return Alive == mutant;
    }
}
