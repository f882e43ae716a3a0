using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Microsoft.AspNetCore.Http;
using SensorLab.Frames;
using SensorLab.Imaging;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.Publishing.Bundles;
using SensorLab.Publishing.Keys;
using SensorLab.Reports;
using SensorLab.Retest;

namespace SensorLab.Bench.Api;

/// <summary>How the bench answers: documents, files and faults.</summary>
internal static class Answers
{
    /// <summary>A page of ours carries its own policy, which allows its own style and script by hash.</summary>
    public static void AllowOwnPage(HttpContext context) => context.Response.Headers.ContentSecurityPolicy = "frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

    /// <summary>An answer whose faults are told in a sentence, with the status that fits.</summary>
    public static RequestDelegate Guarded(RequestDelegate answer) => async context =>
    {
        try
        {
            await answer(context);
        }
        catch (Exception e) when (StatusOf(e) is { } status)
        {
            context.Response.StatusCode = status;
            await JsonAsync(context, new Fault(e.Message, null), BenchJson.Default.Fault);
        }
    };

    private static int? StatusOf(Exception e) => e switch
    {
        JsonException or PlanUsageException or PlanFormatException or ArgumentException or NotSupportedException => StatusCodes.Status400BadRequest,
        ProfileFormatException or KeyFileException or ProfilesNotComparableException or FindingsNotAcceptedException or FrameSetRefusedException or FrameTableException => StatusCodes.Status422UnprocessableEntity,
        BadHttpRequestException bad => bad.StatusCode,
        IOException or UnauthorizedAccessException or MalformedFileException or UnsupportedFileException or FontsMissingException or ImagingLibraryMissingException => StatusCodes.Status422UnprocessableEntity,
        _ => null,
    };

    /// <summary>Answers with a JSON document.</summary>
    public static Task JsonAsync<T>(HttpContext context, T document, JsonTypeInfo<T> type)
    {
        context.Response.ContentType = "application/json";
        return JsonSerializer.SerializeAsync(context.Response.Body, document, type, context.RequestAborted);
    }

    /// <summary>The JSON document that was sent.</summary>
    public static async Task<T> BodyAsync<T>(HttpContext context, JsonTypeInfo<T> type)
        where T : class
    {
        if (context.Request.ContentType?.StartsWith("application/json", StringComparison.OrdinalIgnoreCase) != true)
        {
            throw new BadHttpRequestException("The request's body is JSON here.", StatusCodes.Status415UnsupportedMediaType);
        }

        return await JsonSerializer.DeserializeAsync(context.Request.Body, type, context.RequestAborted) ?? throw new JsonException("The request's body is empty.");
    }

    /// <summary>Answers with a file of the page.</summary>
    public static async Task PageAsync(HttpContext context, string name)
    {
        if (PageFiles.Find(name) is not { } file)
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        context.Response.ContentType = file.Type;
        await context.Response.Body.WriteAsync(file.Bytes, context.RequestAborted);
    }

    /// <summary>Answers with the file that the address names.</summary>
    public static Task FileAsync(HttpContext context, IReadOnlyList<ReportFile> files)
    {
        string name = (string?)context.Request.RouteValues["name"] ?? string.Empty;
        int at = files.Select((f, i) => (f.Name, Index: i)).Where(f => f.Name == name).Select(f => f.Index).DefaultIfEmpty(-1).First();
        return BytesAsync(context, name, at < 0 ? null : files[at].Bytes.ToArray());
    }

    /// <summary>Answers with a document; null is not found.</summary>
    public static async Task BytesAsync(HttpContext context, string name, byte[]? bytes)
    {
        if (bytes is null)
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        if (name.EndsWith(".html", StringComparison.Ordinal))
        {
            AllowOwnPage(context);
        }
        else if (name.EndsWith(".svg", StringComparison.Ordinal))
        {
            context.Response.Headers.ContentSecurityPolicy = "default-src 'none'; style-src 'unsafe-inline'";
        }

        context.Response.ContentType = PageFiles.TypeOf(name);
        await context.Response.Body.WriteAsync(bytes, context.RequestAborted);
    }

    /// <summary>Acts and answers with nothing.</summary>
    public static Task DoneAsync(HttpContext context, Action act)
    {
        act();
        context.Response.StatusCode = StatusCodes.Status204NoContent;
        return Task.CompletedTask;
    }
}
