using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using SensorLab.Bench.Access;
using SensorLab.Bench.Api;
using SensorLab.Bench.Sessions;
using SensorLab.Bench.Sharing;

namespace SensorLab.Bench;

/// <summary>The bench's server, on this machine alone.</summary>
public sealed class BenchServer : IAsyncDisposable
{
    // A plan's document is the largest thing that is ever sent here.
    private const int MostBodyBytes = 16 * 1024 * 1024;

    private const int MostConnections = 200;

    private readonly WebApplication _app;
    private readonly BenchSession _session;
    private readonly CancellationTokenSource _stopping = new();

    private readonly PhoneShare? _share;

    private BenchServer(WebApplication app, BenchSession session, string token, PhoneShare? share)
    {
        _app = app;
        _session = session;
        _share = share;
        Token = token;
    }

    /// <summary>The address with its token, for the browser.</summary>
    public string Address => $"{Root}/?token={Token}";

    /// <summary>The address without its token.</summary>
    public string Root { get; private set; } = string.Empty;

    /// <summary>What lets in: as the query's token, or as the cookie that the page gets.</summary>
    public string Token { get; }

    /// <summary>Who else can see anything, in sentences; empty for nobody.</summary>
    public IReadOnlyList<string> SharedWith => _share is null ? [] : [_share.Who];

    /// <summary>Starts the server and opens the set.</summary>
    /// <param name="options">What it is started with.</param>
    /// <param name="cancellation">Stops the start.</param>
    /// <returns>The server, listening.</returns>
    /// <exception cref="IOException">The port is taken, or it is to be shared and the machine is on no network.</exception>
    public static async Task<BenchServer> StartAsync(BenchOptions options, CancellationToken cancellation = default)
    {
        var session = new BenchSession(options);
        PhoneShare? share = options.IsShared ? new PhoneShare(session, options.ShareAddress ?? PhoneShare.OwnAddress() ?? throw new IOException("This machine is on no network that a phone could be on: join one, or leave --share out.")) : null;
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { ApplicationName = "sensorlab", ContentRootPath = AppContext.BaseDirectory });
        builder.Logging.ClearProviders();
        builder.Services.AddSingleton<IHostLifetime, NoLifetime>();
        builder.WebHost.ConfigureKestrel(server =>
        {
            server.Listen(IPAddress.Loopback, options.Port);
            if (share is not null)
            {
                server.Listen(share.Address, 0);
            }

            server.AddServerHeader = false;
            server.Limits.MaxRequestBodySize = MostBodyBytes;
            server.Limits.MaxConcurrentConnections = MostConnections;
            server.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(10);
            server.Limits.MaxRequestHeadersTotalSize = 16 * 1024;
        });
        WebApplication app = builder.Build();
        var bench = new BenchServer(app, session, RequestGate.NewToken(), share);
        string[] hosts = [];
        var gate = new RequestGate(bench.Token, () => hosts, () => $"sensorlab-{new Uri(bench.Root).Port}");
        app.Use(next => context => share is not null && context.Connection.LocalIpAddress?.Equals(share.Address) == true ? share.AnswerAsync(context) : gate.PassAsync(context, next));
        new BenchApi(session, options, share, bench._stopping.Token).Map(app);
        await app.StartAsync(cancellation);
        Uri[] addresses = [.. app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Select(a => new Uri(a))];
        int port = addresses.First(a => a.Host == IPAddress.Loopback.ToString()).Port;
        if (share is not null)
        {
            share.Port = addresses.First(a => a.Host == share.Address.ToString()).Port;
            session.Share = share.Brief;
        }

        bench.Root = $"http://127.0.0.1:{port}";
        hosts = [$"127.0.0.1:{port}", $"localhost:{port}"];
        session.Start();
        return bench;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stopping.CancelAsync();
        await _session.DisposeAsync();
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(2));
        await _app.StopAsync(patience.Token);
        await _app.DisposeAsync();
        _stopping.Dispose();
    }

    /// <summary>The command line hears the signals; a server that hears them too would end first.</summary>
    private sealed class NoLifetime : IHostLifetime
    {
        public Task WaitForStartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

        public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
    }
}
