using SensorLab.Cli;

return await new CommandLine(Workbench.Library, Terminal.OfProcess()).RunAsync(args);
