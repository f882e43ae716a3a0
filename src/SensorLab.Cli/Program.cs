using SensorLab.Cli;

return await new CommandLine(Workbench.Library, Terminal.OfProcess()).RunAsync(args);

// The server's framework would make it public, for tests of websites.
internal sealed partial class Program;
