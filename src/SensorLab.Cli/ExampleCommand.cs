using System.CommandLine;

namespace SensorLab.Cli;

/// <summary>A command whose help shows how it is used.</summary>
/// <param name="name">The command's name.</param>
/// <param name="description">What it does, in a sentence or two.</param>
/// <param name="examples">Command lines that can be copied.</param>
internal sealed class ExampleCommand(string name, string description, IReadOnlyList<string> examples) : Command(name, description)
{
    public IReadOnlyList<string> Examples { get; } = examples;
}
