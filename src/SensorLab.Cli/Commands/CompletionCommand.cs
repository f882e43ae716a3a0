using System.CommandLine;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab completion</c>: the lines with which a shell completes commands, options and their words.</summary>
internal sealed class CompletionCommand
{
    private const string Bash =
        """
        # sensorlab: completion for bash. Switch on: echo 'source <(sensorlab completion bash)' >> ~/.bashrc
        _sensorlab() {
          local line="${COMP_LINE#* }" word="${COMP_WORDS[COMP_CWORD]}"
          local before=$((${#COMP_LINE} - ${#line}))
          mapfile -t COMPREPLY < <(compgen -W "$(sensorlab "[suggest:$((COMP_POINT - before))]" "$line" 2>/dev/null)" -- "$word")
        }
        complete -o default -F _sensorlab sensorlab
        """;

    private const string Zsh =
        """
        # sensorlab: completion for zsh. Switch on: echo 'source <(sensorlab completion zsh)' >> ~/.zshrc (after compinit)
        _sensorlab() {
          local line="${BUFFER#* }"
          local before=$((${#BUFFER} - ${#line}))
          local -a found
          found=("${(@f)$(sensorlab "[suggest:$((CURSOR - before))]" "$line" 2>/dev/null)}")
          compadd -a found
          _files
        }
        compdef _sensorlab sensorlab
        """;

    private const string Fish =
        """
        # sensorlab: completion for fish. Switch on: sensorlab completion fish > ~/.config/fish/completions/sensorlab.fish
        function __sensorlab_complete
            set -l line (commandline -cp | string replace -r '^\S+\s?' '')
            sensorlab "[suggest:"(string length -- "$line")"]" "$line" 2>/dev/null
        end
        complete -c sensorlab -a '(__sensorlab_complete)'
        """;

    private const string PowerShell =
        """
        # sensorlab: completion for PowerShell. Switch on: sensorlab completion powershell >> $PROFILE
        Register-ArgumentCompleter -Native -CommandName sensorlab -ScriptBlock {
          param($word, $ast, $position)
          $line = $ast.ToString() -replace '^\S+\s?', ''
          $before = $ast.ToString().Length - $line.Length
          sensorlab "[suggest:$([Math]::Max(0, $position - $before))]" "$line" 2>$null | Where-Object { $_ -like "$word*" } | ForEach-Object {
            [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_)
          }
        }
        """;

    private static readonly string[] Examples =
    [
        "source <(sensorlab completion bash)",
        "echo 'source <(sensorlab completion bash)' >> ~/.bashrc",
        "echo 'source <(sensorlab completion zsh)' >> ~/.zshrc",
        "sensorlab completion fish > ~/.config/fish/completions/sensorlab.fish",
        "sensorlab completion powershell >> $PROFILE",
    ];

    private static readonly Dictionary<string, string> Scripts = new(StringComparer.Ordinal)
    {
        ["bash"] = Bash,
        ["zsh"] = Zsh,
        ["fish"] = Fish,
        ["powershell"] = PowerShell,
    };

    public static Command Create(Terminal terminal)
    {
        var shell = new Argument<string>("SHELL") { Description = $"{string.Join(", ", Scripts.Keys)}." };
        shell.CompletionSources.Add(_ => Scripts.Keys.Select(k => new System.CommandLine.Completions.CompletionItem(k)));
        var command = new ExampleCommand("completion", "Writes what makes a shell complete commands, options and their words; the examples switch it on.", Examples) { shell };
        command.SetAction((parsed, _) => Task.FromResult(Write(parsed.GetRequiredValue(shell), terminal)));
        return command;
    }

    private static int Write(string shell, Terminal terminal)
    {
        string script = Scripts.GetValueOrDefault(shell)
            ?? throw new UsageException($"there is no completion for \"{shell}\".{NearestWord.Question(shell, Scripts.Keys)} There is one for {string.Join(", ", Scripts.Keys)}.");
        foreach (string line in script.ReplaceLineEndings("\n").Split('\n'))
        {
            terminal.Output.WriteLine(line);
        }

        return ExitStatus.Done;
    }
}
