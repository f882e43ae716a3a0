using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Primitives;
using Microsoft.Net.Http.Headers;

namespace SensorLab.Bench.Access;

/// <summary>Lets in who has the token, from this machine's own page: another site's page has neither its origin nor its cookie.</summary>
/// <remarks>
/// A name that was rebound to 127.0.0.1 comes with its own name as Host, and is refused before anything else is looked at. The number
/// of requests at once is bounded: what is beyond is told to come again.
/// </remarks>
internal sealed class RequestGate
{
    private const int MostAtOnce = 64;

    private const string PagePolicy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

    private readonly byte[] _token;
    private readonly Func<IReadOnlyList<string>> _hosts;
    private readonly Func<string> _cookie;
    private int _atOnce;

    /// <summary>Makes the gate.</summary>
    /// <param name="token">What the address carries.</param>
    /// <param name="hosts">The names and port that the bench is reached by, as 127.0.0.1:8080.</param>
    /// <param name="cookie">The cookie's name: cookies do not tell ports apart.</param>
    public RequestGate(string token, Func<IReadOnlyList<string>> hosts, Func<string> cookie)
    {
        _token = Encoding.ASCII.GetBytes(token);
        _hosts = hosts;
        _cookie = cookie;
    }

    /// <summary>A token that nobody guesses: 192 bits.</summary>
    public static string NewToken() => Convert.ToHexString(RandomNumberGenerator.GetBytes(24));

    /// <summary>Passes a request on, or answers it.</summary>
    /// <param name="context">The request.</param>
    /// <param name="next">What stands behind the gate.</param>
    public async Task PassAsync(HttpContext context, RequestDelegate next)
    {
        Harden(context.Response.Headers);
        if (!IsOwnHost(context.Request) || !IsOwnOrigin(context.Request))
        {
            context.Response.StatusCode = StatusCodes.Status403Forbidden;
            return;
        }

        string? word = context.Request.Query["token"];
        if (IsToken(word) && HttpMethods.IsGet(context.Request.Method) && context.Request.Path == "/")
        {
            // From here on the cookie stands for it: an address with the token would stay in the browser's history.
            context.Response.Cookies.Append(_cookie(), word!, new CookieOptions { HttpOnly = true, SameSite = Microsoft.AspNetCore.Http.SameSiteMode.Strict, Path = "/" });
            context.Response.Redirect("/");
            return;
        }

        if (!IsToken(word) && !IsToken(context.Request.Cookies[_cookie()]))
        {
            context.Response.StatusCode = StatusCodes.Status401Unauthorized;
            return;
        }

        if (Interlocked.Increment(ref _atOnce) > MostAtOnce)
        {
            Interlocked.Decrement(ref _atOnce);
            context.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
            context.Response.Headers.RetryAfter = "1";
            return;
        }

        try
        {
            await next(context);
        }
        finally
        {
            Interlocked.Decrement(ref _atOnce);
        }
    }

    private static void Harden(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = PagePolicy;
        headers.XContentTypeOptions = "nosniff";
        headers[HeaderNames.CacheControl] = "no-store";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
    }

    private bool IsOwnHost(HttpRequest request) => _hosts().Contains(request.Host.Value, StringComparer.OrdinalIgnoreCase);

    // Browsers send an origin with every request that changes something, and with those of other sites.
    private bool IsOwnOrigin(HttpRequest request) =>
        (StringValues.IsNullOrEmpty(request.Headers.Origin) || _hosts().Any(host => request.Headers.Origin == $"http://{host}"))
        && (StringValues.IsNullOrEmpty(request.Headers["Sec-Fetch-Site"]) || request.Headers["Sec-Fetch-Site"].ToString() is "same-origin" or "none");

    private bool IsToken(string? word) => word is not null && CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(word), _token);
}
