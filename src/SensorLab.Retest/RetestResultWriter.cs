namespace SensorLab.Retest;

/// <summary>Writes what came of a comparison as JSON, in the contract's form.</summary>
public static class RetestResultWriter
{
    /// <summary>Writes a result as UTF-8 JSON, lines ended by a line feed.</summary>
    /// <param name="result">The result.</param>
    /// <param name="target">Where to; left open.</param>
    /// <exception cref="IOException">The stream cannot be written.</exception>
    public static void Write(RetestResult result, Stream target) =>
        target.Write([.. RetestJson.BytesOf(RetestDocument.Of(result)), (byte)'\n']);

    /// <summary>A verdict in the contract's words.</summary>
    /// <param name="verdict">The verdict.</param>
    public static string WordOf(RetestVerdict verdict) => verdict switch
    {
        RetestVerdict.Equivalent => "equivalent",
        RetestVerdict.Changed => "changed",
        RetestVerdict.Undecided => "undecided",
        _ => "not judged",
    };

    /// <summary>A recommendation in the document's words.</summary>
    /// <param name="recommendation">The recommendation.</param>
    public static string WordOf(RetestRecommendation recommendation) => recommendation switch
    {
        RetestRecommendation.Keep => "keep",
        RetestRecommendation.Replace => "replace",
        RetestRecommendation.ShootFirst => "shoot-first",
        _ => "tell-the-team",
    };
}
