using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Http;
using SensorLab.Bench.Access;
using SensorLab.Bench.Api;
using SensorLab.Bench.Sessions;
using SensorLab.Reports;

namespace SensorLab.Bench.Sharing;

/// <summary>Two pages for phones on the same network, each under a token of its own: the shot list and the pocket sheet. Nothing else is there.</summary>
internal sealed class PhoneShare
{
    private const string Path = "/s/";

    private readonly BenchSession _session;
    private readonly string _shotList = RequestGate.NewToken();
    private readonly string _pocketSheet = RequestGate.NewToken();

    /// <summary>Makes the share.</summary>
    /// <param name="session">Whose plan and profile are shown.</param>
    /// <param name="address">This machine's address on the network.</param>
    public PhoneShare(BenchSession session, IPAddress address)
    {
        _session = session;
        Address = address;
    }

    /// <summary>This machine's address on the network.</summary>
    public IPAddress Address { get; }

    /// <summary>The port; 0 until it is listened on.</summary>
    public int Port { get; set; }

    /// <summary>Who can see what.</summary>
    public string Who => $"Whoever has one of these links and is on the same network as this machine ({Address}) can open that one page, and nothing else, until the bench ends. It is not encrypted.";

    private string Host => $"{Address}:{Port}";

    /// <summary>This machine's address on a network that phones may be on.</summary>
    /// <returns>Null where it is on none.</returns>
    public static IPAddress? OwnAddress() => NetworkInterface.GetAllNetworkInterfaces()
        .Where(n => n.OperationalStatus == OperationalStatus.Up && n.NetworkInterfaceType is not (NetworkInterfaceType.Loopback or NetworkInterfaceType.Tunnel))
        .Select(n => n.GetIPProperties())
        .OrderByDescending(p => p.GatewayAddresses.Count)
        .SelectMany(p => p.UnicastAddresses)
        .Select(a => a.Address)
        .FirstOrDefault(a => a.AddressFamily == AddressFamily.InterNetwork);

    /// <summary>What the page shows of the share.</summary>
    public ShareBrief Brief(BenchState state) => new(
        Who,
        state.Plan is null ? null : LinkOf(_shotList),
        state.Profile is null ? null : LinkOf(_pocketSheet));

    /// <summary>The code of a link.</summary>
    /// <param name="isPocketSheet">Whether it is the pocket sheet's; else the shot list's.</param>
    public byte[] Code(bool isPocketSheet) => QrCode.Of(LinkOf(isPocketSheet ? _pocketSheet : _shotList)).Svg();

    /// <summary>Answers a request from the network.</summary>
    public async Task AnswerAsync(HttpContext context)
    {
        string path = context.Request.Path.Value ?? string.Empty;
        string word = path.StartsWith(Path, StringComparison.Ordinal) ? path[Path.Length..] : string.Empty;
        byte[]? page = !HttpMethods.IsGet(context.Request.Method) || context.Request.Host.Value != Host ? null
            : IsSame(word, _shotList) && _session.Current?.Plan is { } plan ? PlanWriter.Files(plan)[0].Bytes.ToArray()
            : IsSame(word, _pocketSheet) && _session.Current?.Finished is { } set ? PocketWriter.Html([set.Profile])
            : null;
        context.Response.Headers.XContentTypeOptions = "nosniff";
        context.Response.Headers["Referrer-Policy"] = "no-referrer";
        context.Response.Headers.CacheControl = "no-store";
        if (page is null)
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        Answers.AllowOwnPage(context);
        context.Response.ContentType = PageFiles.TypeOf(".html");
        await context.Response.Body.WriteAsync(page, context.RequestAborted);
    }

    private static bool IsSame(string word, string token) => CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(word), Encoding.ASCII.GetBytes(token));

    private string LinkOf(string token) => $"http://{Host}{Path}{token}";
}
