namespace SensorLab.Files;

/// <summary>The files that a command reads, whatever they are called: no output may replace one.</summary>
public sealed class InputFiles
{
    private readonly HashSet<FileNode> _nodes = [];
    private readonly HashSet<string> _paths = new(StringComparer.Ordinal);

    /// <summary>Names files that are read; those that are not there are passed over.</summary>
    /// <param name="paths">The files.</param>
    public InputFiles(params IEnumerable<string?> paths)
    {
        foreach (string path in paths.OfType<string>())
        {
            _paths.Add(OutputTarget.Followed(path));
            if (FileNode.Of(path) is { Kind: FileNodeKind.Plain } node)
            {
                _nodes.Add(node);
            }
        }
    }

    /// <summary>Requires that an output replaces none of them, links followed.</summary>
    /// <param name="output">The file to write.</param>
    /// <exception cref="OutputIsInputException">It is one of them.</exception>
    public void RequireApart(string output)
    {
        if (_paths.Contains(OutputTarget.Followed(output)) || (FileNode.Of(output) is { } node && _nodes.Contains(node)))
        {
            throw new OutputIsInputException($"{output} is read too and would be replaced: name another file.");
        }
    }
}
